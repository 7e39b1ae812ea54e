// The pacer: runs a lesson's drill with words, count, picture, tones, voice and vibration. Each of
// them alone is enough to follow. The times are those of schedule.js, the clock is clock.js.
(function () {
  "use strict";

  const AHEAD_MS = 1500; // how far tones are queued ahead
  const AHEAD_HIDDEN_MS = 70000; // a hidden page is woken once a minute at worst
  const TICK_MS = 100;
  const JUST_MS = 250; // a breath that began no longer ago can still take up another count
  const LATE_MS = 120; // how late a breath that begins by a button may be heard
  const ECHO_MS = 500; // the second half of a double click
  const SOUND_MS = 800; // how long sound may take to start
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
    let turn = 0; // counts what was begun, so that what comes late knows it
    let isLeaving = false;
    let freezes = 0;
    let click = { time: -Infinity, x: 0, y: 0 };

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
      return now.kind === "rest" || isRestBefore(now) ? restWord(now) : say[now.kind];
    }

    // One more set begins with a rest.
    function isRestBefore(now) {
      return now.kind === "lead" && session.isAgain;
    }

    function restWord(now) {
      const half = session.plan.rounds / 2;
      const before = now.round - 1 > half || session.isAgain ? 2 : 1;
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
      find(".tl-pacer__bar").value = Math.round(100 * done) / 100;
      if (options.picture && picture) {
        picture.draw(now.fill);
      }
      drawMark(now);
      const skip = find("[data-tl-skip]");
      const isRest = now.kind === "rest" || isRestBefore(now);
      const canSkip = isRest || (session.isOpen && now.kind === "set");
      skip.hidden = !canSkip || session.isPaused;
      skip.textContent = isRest ? say.skip_rest : say.set_done;
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
      const counts = strips.map((strip) => JSON.parse(strip.dataset.tlCount).join());
      const now = counts.indexOf(session.tempo.join());
      strips.forEach((strip, index) => {
        strip.hidden = index !== now;
      });
      const [faster, slower] = [find("[data-tl-faster]"), find("[data-tl-slower]")];
      if (faster) {
        faster.disabled = place === 0;
        slower.disabled = place === strips.length - 1;
        const next = place === now ? "" : `, ${say.then} ${strips[place].dataset.tlName}`;
        setText(".tl-pacer__count", `${say.count} ${strips[now].dataset.tlName}${next}`);
      }
    }

    /* What is heard and felt */

    function tell(now) {
      const moment = [now.kind, now.round, now.breath, now.step].join();
      if (session.isPaused || moment === saidAt) {
        return;
      }
      saidAt = moment;
      const aloud = spokenWords(now);
      if (now.step !== "pause") {
        setText(".tl-pacer__said", aloud);
      }
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

    // The side is told when it changes: with a set, or with a breath where sides take turns.
    function spokenWords(now) {
      const words = wordFor(now);
      if (!now.step) {
        return now.kind === "end" ? words : `${words}. ${whereWords(now)}`;
      }
      const isNewSide = now.step === "in" && (drill.sides === "alternate" || now.breath === 1);
      return now.side && isNewSide ? `${words}, ${say["side" + now.side]}` : words;
    }

    // At one's own pace nobody knows when a set ends, so its tones come with the button.
    function soundNow(name) {
      if (tones && session.isOpen) {
        tones.play(name, audio.currentTime + 0.05);
      }
    }

    function queueTones() {
      if (!tones || session.isPaused || session.isOpen) {
        return;
      }
      const at = session.position(clock.now());
      const until = at + (document.hidden ? AHEAD_HIDDEN_MS : AHEAD_MS);
      const from = Math.max(queuedTo, at - LATE_MS);
      for (const event of t.schedule(session.plan, Math.ceil(from), Math.ceil(until))) {
        const name = t.toneOf(event);
        if (name) {
          const at = clock.audioTime(session.clockOf(event.at));
          tones.play(name, Math.max(at, audio.currentTime));
        }
      }
      queuedTo = Math.max(queuedTo, Math.ceil(until));
    }

    // Tones are queued again from a position on.
    function dropTones(from) {
      if (tones) {
        tones.cancelFrom(audio.currentTime);
      }
      queuedTo = from === undefined ? session.position(clock.now()) : from;
    }

    function openAudio() {
      const Context = window.AudioContext || window.webkitAudioContext;
      if (!Context || audio) {
        return;
      }
      try {
        audio = new Context();
      } catch (error) {
        return; // no sound here; the page's clock does
      }
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
      const opened = audio;
      const late = new Promise((done) => {
        window.setTimeout(done, SOUND_MS);
      });
      // Refused or late sound is no reason to wait: the page's clock goes on without it.
      await Promise.race([opened.resume().catch(() => undefined), late]);
      clock.follow(audio === opened && opened.state === "running" && freezes < 2 ? opened : null);
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
        const held = await navigator.wakeLock.request("screen");
        if (!timer) {
          held.release();
          return;
        }
        lock = held;
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
        freezes += 1;
        pause(say.paused_sound);
        return;
      }
      if (session.take(clock.now(), JUST_MS)) {
        dropTones();
        showCount();
      }
      queueTones();
      const now = session.at(clock.now());
      tell(now);
      if (now.kind === "end") {
        soundNow("end");
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
      turn += 1;
      const mine = turn;
      openAudio();
      await followAudio();
      if (mine !== turn || !dialog.open) {
        return;
      }
      session = t.makeSession({ ...drill, tempo: tempoNow() });
      session.start(clock.now());
      start();
    }

    function start() {
      saidAt = "";
      dropTones(-Infinity);
      showPart("run");
      showCount();
      setText(".tl-pacer__note", "");
      find("[data-tl-pause]").textContent = say.pause_button;
      find("[data-tl-pause]").focus({ preventScroll: true });
      dialog.scrollTop = 0;
      run();
      holdScreen();
    }

    function tempoNow() {
      return strips.length ? JSON.parse(strips[place].dataset.tlCount) : drill.tempo;
    }

    function pause(why) {
      turn += 1;
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
      turn += 1;
      const mine = turn;
      openAudio();
      await followAudio();
      if (mine !== turn || !dialog.open) {
        return;
      }
      session.resume(clock.now());
      start();
    }

    function finish() {
      turn += 1;
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
      find(".tl-pacer__kept").focus();
    }

    function pace(by) {
      const next = place + by;
      if (next < 0 || next >= strips.length) {
        return;
      }
      place = next;
      session.wish(tempoNow());
      showCount();
      if (document.activeElement === document.body || document.activeElement.disabled) {
        find(by < 0 ? "[data-tl-slower]" : "[data-tl-faster]").focus();
      }
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
      isLeaving = false;
      freezes = 0;
      dialog.showModal();
      if (!isPacerEntry()) {
        window.history.pushState({ tlPacer: true }, "");
      }
      find("[data-tl-begin]").focus({ preventScroll: true });
      dialog.scrollTop = 0;
    }

    function isPacerEntry() {
      return Boolean(window.history.state && window.history.state.tlPacer);
    }

    function close() {
      turn += 1;
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
      calm.addEventListener("change", () => dialog.open && draw());
    }

    function isEcho(event) {
      const isNear = Math.hypot(event.clientX - click.x, event.clientY - click.y) < 8;
      return event.detail > 0 && isNear && event.timeStamp - click.time < ECHO_MS;
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
          const was = session.at(clock.now());
          session.skip(clock.now());
          dropTones(-Infinity);
          if (was.kind === "set" && session.at(clock.now()).kind === "rest") {
            soundNow("rest");
          }
          find("[data-tl-pause]").focus({ preventScroll: true });
          tick();
        },
        "[data-tl-more]": () => {
          session.again(clock.now());
          start();
        },
      };
      for (const [selector, act] of Object.entries(clicks)) {
        const button = find(selector);
        const mayRepeat = selector === "[data-tl-faster]" || selector === "[data-tl-slower]";
        if (button) {
          button.addEventListener("click", (event) => (isEcho(event) && !mayRepeat ? null : act()));
        }
      }
      dialog.querySelectorAll("[data-tl-answer]").forEach((button) => {
        button.addEventListener("click", (event) => {
          if (!isEcho(event)) {
            answer(button.dataset.tlAnswer);
          }
        });
      });
      // The second half of a double click must not press what has come under the finger.
      dialog.addEventListener(
        "click",
        (event) => {
          if (isEcho(event) && event.target.closest("a")) {
            event.preventDefault();
          }
        },
        true,
      );
      dialog.addEventListener("click", (event) => {
        if (event.detail > 0) {
          click = { time: event.timeStamp, x: event.clientX, y: event.clientY };
        }
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
