// The pacer: runs a lesson's drill with words, count, picture, tones, voice and vibration. Each of
// them alone is enough to follow. The times are those of schedule.js, the clock is clock.js.
(function () {
  "use strict";

  const AHEAD_MS = 1500; // how far tones are queued ahead
  const AHEAD_HIDDEN_MS = 70000; // a hidden page is woken once a minute at worst
  const TICK_MS = 100;
  const SOON_MS = 250; // a breath that ends sooner can still take up another count
  const BUZZ_MS = { in: [120], out: [40, 60, 40], hold: [40], rest: [200], end: [200, 100, 200] };

  /** @param {HTMLDialogElement} dialog */
  function makePacer(dialog) {
    const t = window.tempoleaf;
    const find = (selector) => dialog.querySelector(selector);
    const say = JSON.parse(find(".tl-pacer__words").textContent);
    const drill = JSON.parse(dialog.dataset.tlDrill);
    const [stripLeft, stripRight] = dialog.dataset.tlEnds.split(" ").map(Number);
    const strips = Array.from(dialog.querySelectorAll("[data-tl-count]"));
    const lesson = dialog.closest("[data-tl-lesson]").dataset.tlLesson;
    const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    const options = { sound: true, voice: false, vibration: false, picture: true };
    const clock = t.makeClock();
    const picture = makePicture(find(".tl-pacer__picture"));

    let session = t.makeSession(drill);
    let place = Number(dialog.dataset.tlOwn);
    let audio = null;
    let tones = null;
    let queuedTo = 0; // position up to which tones are queued
    let saidAt = ""; // the last moment that was told
    let timer = 0;
    let frame = 0;
    let lock = null;

    function makePicture(holder) {
      const box = dialog.parentElement.querySelector(".tl-figure");
      if (!box) {
        return null;
      }
      const moving = box.querySelector(".tl-figure__moving svg").cloneNode(true);
      const still = box.querySelector(".tl-figure__pair svg").cloneNode(true);
      holder.append(still, moving);
      const frames = box.querySelector(".tl-figure__frames").textContent;
      const show = t.makeFigure(moving, frames);
      return {
        draw(share) {
          still.style.display = calm.matches ? "" : "none";
          moving.style.display = calm.matches ? "none" : "";
          show(share);
        },
      };
    }

    /* What is seen */

    function showPart(name) {
      for (const part of ["before", "run", "done"]) {
        find(".tl-pacer__" + part).hidden = part !== name;
      }
    }

    function wordFor(now) {
      if (session.isPaused) {
        return say.paused;
      }
      if (now.kind === "set") {
        return say[now.step] || say.own;
      }
      return now.kind === "rest" ? restWord(now) : say[now.kind];
    }

    function restWord(now) {
      const before = drill.sides === "each" && now.round - 1 <= session.plan.rounds / 2 ? 1 : 2;
      return now.side && before !== now.side ? say["next_side" + now.side] : say.rest;
    }

    function numberFor(now) {
      if (now.kind === "set" && now.step) {
        return String(Math.floor((now.lasts - now.left) / 1000) + 1);
      }
      const seconds = Math.ceil(now.left / 1000);
      if (now.kind === "set" && session.isOpen) {
        return "";
      }
      return seconds >= 60
        ? `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`
        : String(seconds);
    }

    function whereWords(now) {
      const rounds = session.plan.rounds;
      const words = rounds > 1 ? [`${say.set} ${now.round} ${say.of} ${rounds}`] : [];
      if (now.breath) {
        words.push(`${say.breath} ${now.breath} ${say.of} ${session.plan.breaths}`);
      }
      if (now.side) {
        words.push(say["side" + now.side]);
      }
      return words.join(" · ");
    }

    function setText(selector, text) {
      const element = find(selector);
      if (element.textContent !== text) {
        element.textContent = text;
      }
    }

    function draw() {
      const now = session.at(clock.now());
      setText(".tl-pacer__word", wordFor(now));
      setText(".tl-pacer__number", session.isPaused ? "" : numberFor(now));
      setText(".tl-pacer__where", whereWords(now));
      const cue = find(".tl-pacer__cue");
      const cues = { in: cue.dataset.tlIn, out: cue.dataset.tlOut };
      if (now.kind !== "set") {
        setText(".tl-pacer__cue", "");
      } else if (cues[now.step]) {
        setText(".tl-pacer__cue", cues[now.step]);
      }
      const done = now.breath ? (now.breath - 1 + now.cycleShare) / session.plan.breaths : now.share;
      find(".tl-pacer__bar").value = done;
      if (options.picture && picture) {
        picture.draw(now.fill);
      }
      drawMark(now);
      const skip = find("[data-tl-skip]");
      const canSkip = now.kind === "rest" || (session.isOpen && now.kind === "set");
      skip.hidden = !canSkip || session.isPaused;
      skip.textContent = now.kind === "rest" ? say.skip_rest : say.set_done;
      return now;
    }

    // A dot rides the strip's line; with less motion it steps once a second.
    function drawMark(now) {
      const strip = strips.find((each) => !each.hidden);
      if (!strip || !options.picture) {
        return;
      }
      const line = strip.querySelector("path:last-of-type");
      const cycle = session.plan.cycleMs;
      const gone = now.cycleShare * cycle;
      const share = (calm.matches ? Math.floor(gone / 1000) * 1000 : gone) / cycle;
      const at = pointAt(line, stripLeft + share * (stripRight - stripLeft));
      let dot = strip.querySelector("circle");
      if (!dot) {
        dot = document.createElementNS("http://www.w3.org/2000/svg", "circle");
        dot.setAttribute("r", "1.4");
        dot.setAttribute("class", "tl-pacer__dot");
        strip.querySelector("svg").append(dot);
      }
      dot.setAttribute("cx", String(at.x));
      dot.setAttribute("cy", String(at.y));
      dot.style.display = now.kind === "set" ? "" : "none";
    }

    function pointAt(line, x) {
      let low = 0;
      let high = line.getTotalLength();
      for (let turn = 0; turn < 12; turn += 1) {
        const middle = (low + high) / 2;
        if (line.getPointAtLength(middle).x < x) {
          low = middle;
        } else {
          high = middle;
        }
      }
      return line.getPointAtLength(low);
    }

    function showCount() {
      strips.forEach((strip, index) => {
        strip.hidden = index !== place;
      });
      const [faster, slower] = [find("[data-tl-faster]"), find("[data-tl-slower]")];
      if (faster) {
        faster.disabled = place === 0;
        slower.disabled = place === strips.length - 1;
        setText(".tl-pacer__count", `${say.count} ${strips[place].dataset.tlName}`);
      }
    }

    /* What is heard and felt */

    function tell(now) {
      const moment = [now.kind, now.round, now.breath, now.step].join();
      if (session.isPaused || moment === saidAt) {
        return;
      }
      saidAt = moment;
      const words = wordFor(now);
      const aloud = now.kind === "set" && !now.step ? `${words}. ${whereWords(now)}` : words;
      setText(".tl-pacer__said", now.kind === "rest" ? `${words}. ${whereWords(now)}` : aloud);
      if (options.voice && window.speechSynthesis && now.step !== "pause") {
        const speech = new window.SpeechSynthesisUtterance(aloud);
        speech.lang = document.documentElement.lang;
        window.speechSynthesis.cancel();
        window.speechSynthesis.speak(speech);
      }
      const buzz = BUZZ_MS[now.step || now.kind];
      if (options.vibration && navigator.vibrate && buzz) {
        navigator.vibrate(buzz);
      }
    }

    function queueTones() {
      if (!tones || session.isPaused) {
        return;
      }
      const at = session.position(clock.now());
      const until = at + (document.hidden ? AHEAD_HIDDEN_MS : AHEAD_MS);
      const from = Math.max(queuedTo, at);
      for (const event of t.schedule(session.plan, Math.ceil(from), Math.ceil(until))) {
        const name = t.toneOf(event);
        if (name && !(session.isOpen && event.kind !== "end")) {
          tones.play(name, clock.audioTime(session.clockOf(event.at)));
        }
      }
      queuedTo = Math.max(queuedTo, Math.ceil(until));
    }

    function dropTones() {
      if (tones) {
        tones.cancelFrom(audio.currentTime);
      }
      queuedTo = 0;
    }

    function openAudio() {
      const Context = window.AudioContext || window.webkitAudioContext;
      if (!Context || audio) {
        return;
      }
      audio = new Context();
      tones = t.makeTones(audio);
      tones.sound(options.sound);
      audio.addEventListener("statechange", () => {
        if (audio && audio.state !== "running" && session.isStarted && !session.isPaused) {
          pause(say.paused_sound);
        }
      });
    }

    async function followAudio() {
      if (!audio || !options.sound) {
        clock.follow(null);
        return;
      }
      try {
        await audio.resume();
      } catch (error) {
        // sound is refused; the page's clock goes on
      }
      clock.follow(audio.state === "running" ? audio : null);
    }

    function closeAudio() {
      if (audio) {
        clock.follow(null);
        const closing = audio;
        audio = null;
        tones = null;
        closing.close();
      }
    }

    /* The screen stays on */

    async function holdScreen() {
      if (!navigator.wakeLock || lock || document.hidden) {
        return;
      }
      try {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => {
          lock = null;
        });
      } catch (error) {
        setText(".tl-pacer__note", say.screen);
      }
    }

    function freeScreen() {
      if (lock) {
        lock.release();
        lock = null;
      }
    }

    /* The run */

    function tick() {
      if (clock.isFrozen() && !session.isPaused) {
        pause(say.paused_sound);
        return;
      }
      if (session.take(clock.now(), SOON_MS)) {
        dropTones();
        showCount();
      }
      queueTones();
      const now = session.at(clock.now());
      tell(now);
      if (now.kind === "end") {
        finish();
      }
    }

    function paint() {
      draw();
      frame = window.requestAnimationFrame(paint);
    }

    function run() {
      window.clearInterval(timer);
      window.cancelAnimationFrame(frame);
      timer = window.setInterval(tick, TICK_MS);
      paint();
    }

    function halt() {
      window.clearInterval(timer);
      window.cancelAnimationFrame(frame);
      timer = 0;
    }

    async function begin() {
      openAudio();
      await followAudio();
      session = t.makeSession({ ...drill, tempo: tempoNow() });
      session.start(clock.now());
      start();
    }

    function start() {
      saidAt = "";
      dropTones();
      showPart("run");
      showCount();
      setText(".tl-pacer__note", "");
      find("[data-tl-pause]").textContent = say.pause_button;
      find("[data-tl-pause]").focus({ preventScroll: true });
      dialog.scrollTop = 0;
      holdScreen();
      run();
    }

    function tempoNow() {
      return strips.length ? JSON.parse(strips[place].dataset.tlCount) : drill.tempo;
    }

    function pause(why) {
      session.pause(clock.now());
      halt();
      dropTones();
      freeScreen();
      draw();
      setText(".tl-pacer__note", why || "");
      setText(".tl-pacer__said", say.paused);
      find("[data-tl-pause]").textContent = say.go_on;
    }

    async function goOn() {
      openAudio();
      await followAudio();
      session.resume(clock.now());
      start();
    }

    function finish() {
      halt();
      freeScreen();
      showPart("done");
      find("[data-tl-more]").hidden = !session.mayGoOn;
      find(".tl-pacer__done .tl-pacer__head").focus();
      setText(".tl-pacer__said", say.end);
    }

    function stop() {
      dropTones();
      session = t.makeSession({ ...drill, tempo: tempoNow() });
      finish();
      find("[data-tl-more]").hidden = true;
    }

    function answer(outcome) {
      const kept = t.practice.record(lesson, outcome, new Date());
      setText(".tl-pacer__kept", kept ? say.saved : say.unsaved);
      dialog.querySelectorAll("[data-tl-after]").forEach((part) => {
        part.hidden = part.dataset.tlAfter !== outcome;
      });
      find("[data-tl-kept-more]").hidden = false;
      find(".tl-pacer__answers").hidden = true;
      find("[data-tl-more]").hidden = true;
    }

    function pace(by) {
      const next = place + by;
      if (next < 0 || next >= strips.length) {
        return;
      }
      place = next;
      session.wish(tempoNow());
      showCount();
    }

    function setOption(name, isOn) {
      options[name] = isOn;
      t.practice.change((data) => {
        data.options[name] = isOn;
      });
      if (name === "sound" && tones) {
        tones.sound(isOn);
        if (!session.isPaused) {
          dropTones();
          followAudio().then(queueTones);
        }
      }
      find(".tl-pacer__picture").hidden = !options.picture;
      find(".tl-pacer__strips").hidden = !options.picture;
    }

    /* Coming and going; the way back closes the pacer and not the page */

    function open() {
      showPart("before");
      find(".tl-pacer__answers").hidden = false;
      find("[data-tl-kept-more]").hidden = true;
      setText(".tl-pacer__kept", "");
      dialog.querySelectorAll("[data-tl-after]").forEach((part) => {
        part.hidden = true;
      });
      dialog.showModal();
      window.history.pushState({ tlPacer: true }, "");
      find("[data-tl-begin]").focus({ preventScroll: true });
      dialog.scrollTop = 0;
    }

    function close() {
      halt();
      dropTones();
      freeScreen();
      closeAudio();
      if (window.speechSynthesis) {
        window.speechSynthesis.cancel();
      }
      if (dialog.open) {
        dialog.close();
      }
    }

    function leave() {
      if (window.history.state && window.history.state.tlPacer) {
        window.history.back();
      } else {
        close();
      }
    }

    function watch() {
      document.addEventListener("visibilitychange", () => {
        if (!dialog.open || session.isPaused || !timer) {
          return;
        }
        const keepsTime = audio && options.sound && audio.state === "running";
        if (document.hidden && !keepsTime) {
          pause(say.paused_hidden);
        } else if (document.hidden) {
          queueTones();
        } else {
          tick();
          holdScreen();
        }
      });
      window.addEventListener("popstate", close);
      window.addEventListener("pagehide", close);
      dialog.addEventListener("cancel", (event) => {
        event.preventDefault();
        leave();
      });
      calm.addEventListener("change", () => dialog.open && draw());
    }

    function connect() {
      const kept = t.practice.read().options;
      dialog.querySelectorAll("[data-tl-option]").forEach((box) => {
        const name = box.dataset.tlOption;
        options[name] = kept[name] === undefined ? options[name] : kept[name];
        box.checked = options[name];
        box.addEventListener("change", () => setOption(name, box.checked));
      });
      find("[data-tl-vibration]").hidden = !navigator.vibrate;
      find(".tl-pacer__picture").hidden = !options.picture;
      find(".tl-pacer__strips").hidden = !options.picture;
      const clicks = {
        "[data-tl-begin]": begin,
        "[data-tl-leave]": leave,
        "[data-tl-stop]": stop,
        "[data-tl-faster]": () => pace(-1),
        "[data-tl-slower]": () => pace(1),
        "[data-tl-pause]": () => (session.isPaused ? goOn() : pause("")),
        "[data-tl-skip]": () => {
          dropTones();
          session.skip(clock.now());
          tick();
        },
        "[data-tl-more]": () => {
          session.again(clock.now());
          start();
        },
      };
      for (const [selector, act] of Object.entries(clicks)) {
        const button = find(selector);
        if (button) {
          button.addEventListener("click", act);
        }
      }
      dialog.querySelectorAll("[data-tl-answer]").forEach((button) => {
        button.addEventListener("click", () => answer(button.dataset.tlAnswer));
      });
      watch();
    }

    connect();
    return { open };
  }

  function start() {
    const dialog = document.querySelector(".tl-pacer");
    const button = document.querySelector("[data-tl-open]");
    if (!dialog || !button || !dialog.showModal || button.dataset.tlReady) {
      return;
    }
    const pacer = makePacer(dialog);
    button.dataset.tlReady = "yes";
    button.hidden = false;
    document.querySelector("[data-tl-scriptless]").hidden = true;
    button.addEventListener("click", pacer.open);
    if (window.location.hash === "#practise") {
      pacer.open();
    }
  }

  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", start);
  } else {
    start();
  }
})();
