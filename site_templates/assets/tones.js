// Soft tones on the audio clock: queued ahead, so that they never drift.
(function (root) {
  "use strict";

  /** @type {Tempoleaf["TONES"]} */
  const TONES = {
    in: { notes: [[330, 392]], seconds: 0.9 },
    hold: { notes: [[349, 349]], seconds: 0.35 },
    out: { notes: [[392, 294]], seconds: 1.1 },
    rest: { notes: [[294, 262], [196, 196]], seconds: 1.4 },
    end: { notes: [[262, 262], [330, 330], [392, 392]], seconds: 2.2 },
  };
  const LOUDEST = 0.16;
  const RISE_SECONDS = 0.06;
  const FADE_FLOOR = 0.0001;

  /** @type {Tempoleaf["toneOf"]} */
  function toneOf(event) {
    if (event.kind === "phase") {
      return event.step === "in" || event.step === "out" || event.step === "hold" ? event.step : "";
    }
    return event.kind === "rest" || event.kind === "end" ? event.kind : "";
  }

  /** @type {Tempoleaf["makeTones"]} */
  function makeTones(context) {
    const gain = context.createGain();
    gain.connect(context.destination);
    /** @type {{node: OscillatorNode, at: number}[]} */
    let queued = [];

    /** @type {Tones["play"]} */
    function play(name, at) {
      const tone = TONES[name];
      tone.notes.forEach(function (note) {
        const node = context.createOscillator();
        const fade = context.createGain();
        const level = LOUDEST / tone.notes.length;
        node.frequency.setValueAtTime(note[0], at);
        node.frequency.linearRampToValueAtTime(note[1], at + tone.seconds);
        fade.gain.setValueAtTime(FADE_FLOOR, at);
        fade.gain.exponentialRampToValueAtTime(level, at + RISE_SECONDS);
        fade.gain.exponentialRampToValueAtTime(FADE_FLOOR, at + tone.seconds);
        node.connect(fade).connect(gain);
        node.start(at);
        node.stop(at + tone.seconds);
        queued.push({ node, at });
      });
    }

    return {
      play,
      cancelFrom(at) {
        queued.filter((tone) => tone.at >= at).forEach((tone) => tone.node.stop());
        queued = queued.filter((tone) => tone.at < at && tone.at > at - 10);
      },
      sound(isOn) {
        gain.gain.setTargetAtTime(isOn ? 1 : 0, context.currentTime, 0.02);
      },
    };
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {TonesScript} */ ({ TONES, makeTones, toneOf }),
  );
})(globalThis);
