// The pacer: runs a lesson's drill with words, count, picture, tones, voice and vibration. Each of
// them alone is enough to follow. The times are those of schedule.js, the clock is clock.js.
(function () {
  "use strict";

  const TICK_MS = 100;
  const JUST_MS = 250; // a breath that began no longer ago can still take up another count
  const LATE_MS = 1500; // where ticks stay away for so long, the device slept

  /** @param {HTMLDialogElement} dialog */
  function makePacer(dialog) {
    const t = window.tempoleaf;
    const find = t.makeFinder(dialog);
    /** @type {Say} */
    const say = JSON.parse(find(".tl-pacer__words").textContent);
    /** @type {Drill} */
    const drill = JSON.parse(t.dataOf(dialog, "tlDrill"));
    const words = t.makeWords(say, drill.sides);
    const view = t.makeView(dialog, words, say);
    const clock = t.makeClock();
    const sound = t.makeSound(clock, () => {
      if (timer) {
        pause(say.paused_sound);
      }
    });
    const wake = t.makeWake(() => view.setText(".tl-pacer__note", say.screen));
    const options = { sound: true, voice: false, vibration: false, picture: true };

    let session = t.makeSession(drill);
    let wished = Number(dialog.dataset.tlOwn); // which count of the band was asked for
    let toldAt = ""; // the last moment that was told
    let timer = 0;
    let frame = 0;
    let turn = 0; // counts what was begun, so that what comes late knows it
    let tickedAt = 0;
    let isLeaving = false;

    function here() {
      return session.at(clock.now());
    }

    /** @param {Place} now */
    function tell(now) {
      const moment = [now.kind, now.round, now.breath, now.step].join();
      if (moment === toldAt) {
        return;
      }
      toldAt = moment;
      if (now.step !== "pause") {
        const aloud = words.spokenWords(session, now);
        view.setText(".tl-pacer__said", aloud);
        if (options.voice) {
          t.speak(aloud);
        }
      }
      if (options.vibration) {
        t.buzz(now.step || now.kind);
      }
    }

    /* The run */

    function tick() {
      const last = tickedAt;
      tickedAt = clock.now();
      if (!sound.keepsTime() && tickedAt - last > LATE_MS) {
        pause(say.paused_hidden, last);
        return;
      }
      if (clock.isFrozen()) {
        sound.noteFreeze();
        pause(say.paused_sound);
        return;
      }
      if (session.take(clock.now(), JUST_MS)) {
        sound.drop(session.position(clock.now()));
        view.showCount(session, wished);
      }
      sound.queue(session);
      const now = here();
      tell(now);
      if (now.kind === "end") {
        if (session.isOpen) {
          sound.playNow("end");
        }
        finish();
      }
    }

    function paint() {
      view.draw(session, here());
      frame = window.requestAnimationFrame(paint);
    }

    function run() {
      halt();
      tickedAt = clock.now();
      timer = window.setInterval(tick, TICK_MS);
      paint();
    }

    function halt() {
      window.clearInterval(timer);
      window.cancelAnimationFrame(frame);
      timer = 0;
      turn += 1;
    }

    // Sound may start late; by then the person may have left or stopped.
    /** @param {() => void} act */
    async function afterSound(act) {
      turn += 1;
      const mine = turn;
      await sound.start();
      if (mine === turn && dialog.open) {
        act();
        show();
      }
    }

    function begin() {
      return afterSound(() => {
        session = t.makeSession({ ...drill, tempo: tempoWished() });
        session.start(clock.now());
      });
    }

    function goOn() {
      return afterSound(() => session.resume(clock.now()));
    }

    function again() {
      session.again(clock.now());
      show();
    }

    function show() {
      toldAt = "";
      sound.drop(-Infinity);
      view.showPart("run");
      view.showCount(session, wished);
      view.setText(".tl-pacer__note", "");
      view.setText("[data-tl-pause]", say.pause_button);
      focusPause();
      run();
      wake.hold();
    }

    function focusPause() {
      find("[data-tl-pause]").focus({ preventScroll: true });
    }

    function tempoWished() {
      return view.counts[wished] || drill.tempo;
    }

    /** @param {string} why @param {number} [at] the moment it stands still at, if not now */
    function pause(why, at) {
      session.pause(at === undefined ? clock.now() : at);
      halt();
      sound.drop(-Infinity);
      wake.free();
      view.draw(session, here());
      view.setText(".tl-pacer__note", why);
      view.setText(".tl-pacer__said", say.paused);
      view.setText("[data-tl-pause]", say.go_on);
    }

    function skip() {
      const was = here();
      session.skip(clock.now());
      sound.drop(-Infinity);
      if (was.kind === "set" && here().kind === "rest") {
        sound.playNow("rest");
      }
      focusPause();
      tick();
    }

    function finish() {
      halt();
      wake.free();
      view.showPart("done");
      find('[data-tl-answer="ready"]').hidden = false;
      find("[data-tl-more]").hidden = !session.mayGoOn;
      find(".tl-pacer__done .tl-pacer__head").focus();
      view.setText(".tl-pacer__said", say.end);
    }

    // Ready is only who went all the way; who stopped before the first breath is asked nothing.
    function stop() {
      sound.drop(-Infinity);
      if (here().kind === "lead" && !session.isAgain) {
        halt();
        wake.free();
        showBefore();
        return;
      }
      finish();
      find("[data-tl-more]").hidden = true;
      find('[data-tl-answer="ready"]').hidden = !session.isAgain;
    }

    /** @param {number} by */
    function pace(by) {
      if (wished + by < 0 || wished + by >= view.counts.length) {
        return;
      }
      wished += by;
      session.wish(tempoWished());
      view.showCount(session, wished);
      const focused = document.activeElement;
      if (focused === document.body || (focused instanceof HTMLButtonElement && focused.disabled)) {
        find(by < 0 ? "[data-tl-slower]" : "[data-tl-faster]").focus();
      }
    }

    /* Before and after */

    /** @param {Outcome | ""} outcome */
    function showAfter(outcome) {
      t.findAll(dialog, "[data-tl-after]").forEach((part) => {
        part.hidden = part.dataset.tlAfter !== outcome;
      });
      find("[data-tl-kept-more]").hidden = !outcome;
      find(".tl-pacer__answers").hidden = Boolean(outcome);
    }

    /** @param {Outcome} outcome */
    function answer(outcome) {
      const lesson = t.makeFinder(document)("[data-tl-lesson]");
      const kept = t.practice.record(t.dataOf(lesson, "tlLesson"), outcome, new Date());
      view.setText(".tl-pacer__kept", kept ? say.saved : say.unsaved);
      showAfter(outcome);
      find("[data-tl-more]").hidden = true;
      find(".tl-pacer__kept").focus();
    }

    /** @param {keyof typeof options} name @param {boolean} isOn */
    function setOption(name, isOn) {
      options[name] = isOn;
      t.practice.change((data) => {
        data.options[name] = isOn;
      });
      view.showPicture(options.picture);
      if (name === "sound") {
        sound.turn(isOn);
        if (timer) {
          sound.drop(session.position(clock.now()));
          sound.start().then(() => sound.queue(session));
        }
      }
    }

    /* Coming and going; the way back closes the pacer and not the page */

    function isPacerEntry() {
      return Boolean(window.history.state && window.history.state.tlPacer);
    }

    function open() {
      isLeaving = false;
      showAfter("");
      view.setText(".tl-pacer__kept", "");
      dialog.showModal();
      if (!isPacerEntry()) {
        window.history.pushState({ tlPacer: true }, "");
      }
      showBefore();
    }

    // The cautions come first, for the keyboard and the ear too.
    function showBefore() {
      view.showPart("before");
      find(".tl-pacer__before .tl-pacer__head").focus({ preventScroll: true });
    }

    function close() {
      halt();
      sound.drop(-Infinity);
      sound.close();
      wake.free();
      if (window.speechSynthesis) {
        window.speechSynthesis.cancel();
      }
      if (dialog.open) {
        dialog.close();
      }
    }

    function leave() {
      if (isLeaving) {
        return;
      }
      if (isPacerEntry()) {
        isLeaving = true;
        window.history.back();
      } else {
        close();
      }
    }

    function watchPage() {
      document.addEventListener("visibilitychange", () => {
        if (!timer) {
          return;
        }
        if (document.hidden && !sound.keepsTime()) {
          pause(say.paused_hidden);
        } else if (document.hidden) {
          sound.queue(session);
        } else {
          tick();
          wake.hold();
        }
      });
      window.addEventListener("popstate", () => {
        close();
        if (isPacerEntry()) {
          window.history.replaceState(null, ""); // came forward to a pacer that is closed
        }
      });
      window.addEventListener("pagehide", close);
      dialog.addEventListener("cancel", (event) => {
        event.preventDefault();
        leave();
      });
      view.calm.addEventListener("change", () => timer && view.draw(session, here()));
    }

    function readOptions() {
      const kept = t.practice.read().options;
      t.findAll(dialog, "[data-tl-option]", HTMLInputElement).forEach((box) => {
        const name = /** @type {keyof typeof options} */ (box.dataset.tlOption);
        options[name] = kept[name] ?? options[name];
        box.checked = options[name];
        box.addEventListener("change", () => setOption(name, box.checked));
      });
      find("[data-tl-vibration]").hidden = !navigator.vibrate;
      sound.turn(options.sound);
      view.showPicture(options.picture);
    }

    const clicks = {
      begin,
      leave,
      stop,
      skip,
      more: again,
      faster: () => pace(-1),
      slower: () => pace(1),
      pause: () => (session.isPaused ? goOn() : pause("")),
    };
    for (const [name, act] of Object.entries(clicks)) {
      dialog.querySelector(`[data-tl-${name}]`)?.addEventListener("click", act);
    }
    t.findAll(dialog, "[data-tl-answer]").forEach((button) => {
      const outcome = /** @type {Outcome} */ (button.dataset.tlAnswer);
      button.addEventListener("click", () => answer(outcome));
    });
    t.stopEchoes(dialog, "[data-tl-faster], [data-tl-slower]");
    readOptions();
    watchPage();
    return { open };
  }

  function start() {
    // Old browsers have neither showModal nor the class to ask for.
    const dialog = /** @type {HTMLDialogElement | null} */ (document.querySelector(".tl-pacer"));
    const button = document.querySelector("[data-tl-open]");
    if (!dialog || !dialog.showModal || !(button instanceof HTMLElement) || button.dataset.tlReady) {
      return;
    }
    const pacer = makePacer(dialog);
    button.dataset.tlReady = "yes";
    button.hidden = false;
    window.tempoleaf.makeFinder(document)("[data-tl-scriptless]").hidden = true;
    button.addEventListener("click", pacer.open);
    if (window.history.state && window.history.state.tlPacer) {
      window.history.replaceState(null, ""); // the page was loaded again
    }
    if (window.location.hash === "#practise") {
      window.history.replaceState(null, "", window.location.pathname);
      pacer.open();
    }
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
