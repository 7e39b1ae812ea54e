// What the site's scripts share: one object, to which each adds its own part. Only the type
// checker reads this file. A script is held to the interface that bears its name, so that it hands
// over all of its part and nothing else.

interface Tempoleaf
  extends WordsScript, DomScript, PracticeDataScript, PracticeScript, FigureScript, ScheduleScript, SessionScript, TonesScript,
    ClockScript, PacerWordsScript, PacerViewScript, PacerSoundScript, PacerVoiceScript, PlacementScript,
    QrScript, HandOverScript, TakeAlongScript, HoldScript, EchoesScript, CardAgeScript,
    ClassRunScript, ClassStateScript, ClassFitScript, ClassRowsScript, ClassStoreScript, ClassBackupScript, ClassTilesScript, ClassPeopleScript,
    ClassPanelScript, ClassFileScript {
  wordsHere?: KnownWords; // where the site's language is not ours
  words: Words; // the site's own
  practice: PracticeStore; // the site's own, on a page
}

declare var tempoleaf: Tempoleaf;

interface Window {
  document$?: { subscribe(act: () => void): void }; // the theme's: tells of every page shown
  webkitAudioContext?: typeof AudioContext; // its name in old browsers
}

/* dom.js: what a page is sure to hold; an error names what is missing */

/** Finds an element, of a class where that matters. */
type Finder = <E extends Element = HTMLElement>(selector: string, type?: new () => E) => NoInfer<E>;

interface DomScript {
  makeFinder(within: ParentNode): Finder;
  findAll<E extends Element = HTMLElement>(
    within: ParentNode, selector: string, type?: new () => E,
  ): NoInfer<E>[];
  /** What the page gives to an element: data-tl-drill is named tlDrill. */
  dataOf(element: HTMLElement, name: string): string;
  /** Whether others can come to an address: no file, and none of this machine's own names. */
  isOnWeb(address: URL | Location): boolean;
  /** A date in words, in the language of the site. */
  wordDate(date: Date, options: Intl.DateTimeFormatOptions): string;
}

/* practice.js: what is kept on the device */

type Outcome = "ready" | "again" | "easier";

interface Practice {
  version: 1;
  ticks: Record<string, string[]>; // by lesson
  log: { lesson: string; on: string; outcome: Outcome }[]; // oldest first; on a day as 2026-11-05
  notes: Record<string, string>; // by lesson
  options: Record<string, boolean>;
}

interface PracticeStore {
  key: string;
  read(): Practice;
  /** Changes what is kept; tells whether the device will keep it. */
  change(alter: (data: Practice) => void): boolean;
  record(lesson: string, outcome: Outcome, when: Date): boolean;
  /** Puts data from elsewhere to what is here. */
  add(found: unknown): boolean;
  /** Shows now, and again when another page or the way back brings something new. */
  follow(show: () => void): void;
  erase(): void;
}

interface PracticeDataScript {
  /** Makes sound data of whatever was kept or handed in. */
  clean(found: unknown): Practice;
  /** How many days had practice, of the last few. */
  countDays(data: Practice, days: string[]): number;
  dayOf(when: Date): string;
  /** Ready is who ticked every box, or whose last two outcomes were ready. */
  isReady(data: Practice, lesson: string, boxes: number): boolean;
  /** What may come next: everything before it is ready, and it isn't yet. */
  listNext(data: Practice, lessons: { id: string; before: string[]; boxes: number }[]): string[];
  /** Two notes on one lesson as one; a line that was written on stands once. */
  joinNotes(own: string, other: string): string;
  /** Puts two together; nothing of either is lost. */
  merge(mine: Practice, other: Practice): Practice;
  /** Hands what was kept under former ids over; now is by former id. */
  rename(data: Practice, now: Record<string, string>): Practice;
}

interface PracticeScript {
  /** Storage is null where the device keeps nothing; home is the site's path on its host. */
  makePractice(storage: Storage | null, home: string): PracticeStore;
}

/* figure.js */

/** Draws the body between the end of an out-breath (0) and the end of an in-breath (1). */
type ShowFigure = (share: number) => void;

interface FigureScript {
  makeFigure(svg: SVGSVGElement, text: string): ShowFigure;
}

/* schedule.js: times in whole milliseconds */

interface Drill {
  tempo: number[]; // inhale, hold, exhale and hold in seconds; empty at one's own pace
  sets: number;
  breaths: number; // in a set; 0 where minutes count
  rest: number; // in seconds
  sides: "together" | "each" | "alternate";
  minutes: number; // 0 where breaths count
}

type Step = "in" | "hold" | "out" | "pause";

/** 0 together, 1 first, 2 second. */
type Side = 0 | 1 | 2;

interface Plan {
  phases: [Step, number][];
  cycleMs: number;
  roundMs: number;
  restMs: number;
  rounds: number; // sets, both sides counted
  breaths: number;
  sides: Drill["sides"];
  endMs: number;
}

interface TimedEvent {
  at: number;
  kind: "set" | "phase" | "rest" | "end";
  lasts: number;
  round: number; // from 1; of the next round where a rest leads to it
  side: Side;
  breath: number; // from 1 inside a round; 0 where no breath is counted
  step: Step | "";
}

interface ScheduleScript {
  makePlan(drill: Drill): Plan;
  /** What begins from a time on and before another, in order. */
  schedule(plan: Plan, start: number, stop: number): TimedEvent[];
  sideOf(plan: Plan, round: number, breath: number): Side;
}

/* session.js: times are milliseconds of one clock that only goes forward */

interface Place {
  kind: "lead" | "set" | "rest" | "end";
  round: number;
  breath: number;
  side: Side;
  step: Step | "";
  share: number; // of the phase, rest, set or lead-in that has gone
  fill: number; // how full the breath is, 0 to 1
  cycleShare: number; // of the breath that has gone
  left: number; // milliseconds of it
  lasts: number; // milliseconds of it
}

interface Session {
  start(now: number): void;
  at(now: number): Place;
  position(now: number): number;
  /** The clock time of a position. */
  clockOf(at: number): number;
  pause(now: number): void;
  /** Goes on at the start of the breath that was cut short. */
  resume(now: number): void;
  /** Asks for another count, to be taken up when the breath ends. */
  wish(next: number[]): void;
  /** Takes up that count, if a breath began just now or none is on; tells whether it did. */
  take(now: number, just: number): boolean;
  /** Ends the set, the rest or the lead-in that is on. */
  skip(now: number): void;
  /** After the end: one more set of each side, a rest before it. */
  again(now: number): void;
  readonly mayGoOn: boolean;
  readonly isPaused: boolean;
  readonly isStarted: boolean;
  readonly isOpen: boolean; // a set goes on until the person ends it
  readonly plan: Plan;
  readonly tempo: number[];
  readonly wished: number[] | null;
  readonly isAgain: boolean;
}

/** What of a practice is told in words, and what of it is heard. */
type ToldSession = Pick<Session, "plan" | "isPaused" | "isOpen" | "isAgain">;
type HeardSession = Pick<Session, "plan" | "isPaused" | "isOpen" | "position" | "clockOf">;

interface SessionScript {
  LEAD_MS: number;
  locate(plan: Plan, at: number): Place;
  makeSession(drill: Drill): Session;
}

/* tones.js: times in seconds of the audio clock */

type ToneName = "in" | "hold" | "out" | "rest" | "end";

interface Tones {
  play(name: ToneName, at: number): void;
  /** Takes back what hasn't begun by a time. */
  cancelFrom(at: number): void;
  sound(isOn: boolean): void;
}

interface TonesScript {
  /** Each note is a pitch at its start and its end, in hertz. */
  TONES: Record<ToneName, { notes: [number, number][]; seconds: number }>;
  makeTones(context: AudioContext): Tones;
  toneOf(event: { kind: string; step: string }): ToneName | "";
}

/* clock.js: milliseconds */

interface Clock {
  now(): number;
  /** Reads another clock from now on: the page's where there is no audio. */
  follow(context: AudioContext | null): void;
  /** When a time of this clock is on the audio clock, in seconds. */
  audioTime(time: number): number;
  /** Tells whether the audio clock stood still for a while, as in a call. */
  isFrozen(): boolean;
}

interface ClockScript {
  makeClock(): Clock;
}

/* echoes.js */

interface EchoesScript {
  /** Quick selects the buttons that may be pressed as fast as one likes. */
  stopEchoes(within: HTMLElement, quick: string): void;
}

/* pacer_words.js */

/** The words of the page, by name, their gaps still open. */
type Say = Record<
  | Step | Place["kind"] | "own" | "breath" | "count" | "count_then" | "saved" | "unsaved"
  | "with_where" | "with_side" | "side1" | "side2" | "next_side1" | "next_side2" | "set_done" | "skip_rest" | "screen"
  | "paused" | "paused_hidden" | "paused_sound" | "pause_button" | "go_on",
  string
>;

interface PacerWords {
  isRest(session: ToldSession, now: Place): boolean;
  numberFor(session: ToldSession, now: Place): string;
  spokenWords(session: ToldSession, now: Place): string;
  whereWords(session: ToldSession, now: Place): string;
  wordFor(session: ToldSession, now: Place): string;
}

interface PacerWordsScript {
  makeWords(say: Say, sides: Drill["sides"]): PacerWords;
}

/* pacer_view.js */

interface PacerView {
  setText(selector: string, text: string): void;
  calm: MediaQueryList;
  counts: number[][]; // the band, from fast to slow
  showPart(name: "before" | "run" | "done"): void;
  showPicture(isOn: boolean): void;
  /** Shows the count that runs, and the one of the band that was asked for. */
  showCount(session: Session, wished: number): void;
  draw(session: Session, now: Place): void;
}

interface PacerViewScript {
  makeView(dialog: HTMLDialogElement, words: PacerWords, say: Say): PacerView;
}

/* pacer_sound.js */

interface PacerSound {
  /** Starts the sound where it may, and takes the clock that keeps time. */
  start(): Promise<void>;
  /** Queues what begins soon. At one's own pace nobody knows when a set ends. */
  queue(session: HeardSession): void;
  /** Takes back what is queued; it is queued again from a position on. */
  drop(from: number): void;
  playNow(name: ToneName): void;
  turn(isOn: boolean): void;
  noteFreeze(): void;
  keepsTime(): boolean;
  close(): void;
}

interface PacerSoundScript {
  buzz(name: Step | Place["kind"]): void;
  /** OnStopped is told when the sound is stopped. */
  makeSound(clock: Clock, onStopped: () => void): PacerSound;
  /** Keeps the screen awake. */
  makeWake(onRefused: () => void): { hold(): Promise<void>; free(): void };
}

/* pacer_voice.js */

interface PacerVoiceScript {
  /** A voice of a language: of the same country and on the device itself, where there is one. */
  findVoice<V extends { lang: string; localService: boolean }>(voices: V[], language: string): V | null;
  /** Speaks words of the site with the device's own voice. */
  speak(words: string): void;
}
