// What the scripts of a class screen share. Times are milliseconds since 1970, so that they go
// right after sleep and a reload.

/* class_run.js: which block is on, and where it stands */

/** A block as the clock needs it; the page gives it. */
interface ScreenBlock {
  number: number;
  /** From 1 among those that are done only if time is left; 0 for a block of the plan. */
  spare: number;
  /** Its name in the middle of a sentence. */
  name: string;
  /** What all do at one count; minutes alone at one's own pace. */
  drill: Drill;
  /** Whether sets and rests are those of everybody, so that they can be told. */
  isShared: boolean;
  /** The rest after it in seconds. */
  rest: number;
  /** When it was planned to begin, in seconds; null for what is done only if time is left. */
  start: number | null;
  /** The block in words, for whoever hears it. */
  words: string;
}

interface Run {
  kind: "wait" | "block" | "rest";
  /** From 0: the block to begin, that is on, or after which all rest. */
  block: number;
  /** When the first set or the rest begins. */
  from: number;
  /** Where the block is held while paused; in a rest, where the block was cut short. */
  held: number | null;
}

interface Stand {
  kind: "wait" | "block" | "paused" | "rest" | "rested";
  block: number;
  /** Milliseconds left of the block or the rest; of the lead-in too. */
  left: number;
  /** Where the count stands; null where no block is on. */
  place: Place | null;
}

interface ClassRunScript {
  /** The run after what passing time alone did: a block that is over is followed by its rest. */
  settleRun(run: Run, blocks: ScreenBlock[], now: number): Run;
  /** Where a settled run stands. */
  standRun(run: Run, blocks: ScreenBlock[], now: number): Stand;
  planOf(block: ScreenBlock): Plan;
  beginBlock(block: number, now: number): Run;
  pauseRun(run: Run, now: number): Run;
  /** Goes on at the start of the breath that was cut short. */
  resumeRun(run: Run, blocks: ScreenBlock[], now: number): Run;
  endBlock(run: Run, now: number): Run;
}

/* class_state.js: all that is kept */

interface TurnMarks {
  outcome: Outcome | "";
  breaths: string;
  rest: string;
  entry: string;
}

interface Reading {
  value: string;
  unit: string;
  entry: string;
}

/** A stopwatch: since when it runs, and when the rest after the last trial ends. */
interface Watch {
  from: number | null;
  restEnds: number;
  unit: string;
}

interface ClassState {
  version: 1;
  /** The mark of the plan that it was noted for. */
  plan: string;
  /** A mark of each person's name, by id, as that page had them. */
  names: Record<string, string>;
  /** Counts what was kept, so that of two copies the later one is known. */
  revision: number;
  began: number | null;
  run: Run;
  /** The block that is looked at, from 0. */
  shown: number;
  isSilent: boolean;
  /** Whether rows that fit no block of this page stay out of the file. */
  leavesEarlier: boolean;
  /** People of the plan who didn't come. */
  out: string[];
  /** People who came as well. */
  added: string[];
  /** Their lessons, by block and person. */
  chosen: Record<string, string>;
  /** By block, person and lesson. */
  turns: Record<string, TurnMarks>;
  /** By block, person, lesson, measure, side and trial. */
  readings: Record<string, Reading>;
  /** By the same without the trial. */
  watches: Record<string, Watch>;
  /** What was saved to a file last, by mark. */
  saved: Record<string, string>;
}

interface ClassStateScript {
  /** Makes sound state of whatever was kept. */
  cleanClass(found: unknown): ClassState;
  /** The same of a text; sound and empty where it is none of ours. */
  readClass(text: string | null): ClassState;
  /** A mark that no other row has. */
  makeMark(day: string): string;
  /** Notes an outcome, or takes it back where it was noted already. */
  tapOutcome(
    state: ClassState, key: string, outcome: Outcome,
    given: { breaths: string; rest: string; mark: string },
  ): void;
  /** Notes a reading; an empty one takes it back, and its mark is kept. */
  noteReading(state: ClassState, key: string, given: { value: string; unit: string; mark: string }): void;
  /** The trials of a stopwatch in seconds, in their order. */
  listTrials(state: ClassState, key: string): number[];
  /** Presses a stopwatch; less than a second is no trial, and there are three at most. */
  pressWatch(state: ClassState, key: string, given: { unit: string; day: string; now: number }): void;
  /** Where a stopwatch stands. */
  readWatch(state: ClassState, key: string, now: number): ReturnType<Hold["at"]>;
  /** Drops what a stopwatch counted while nobody looked: past its longest time nobody knows. */
  dropLateWatches(state: ClassState, now: number): boolean;
  /** Whether a stopwatch has run its longest time. */
  hasLateWatch(state: ClassState, now: number): boolean;
  /** Ends stopwatches that ran their longest time. */
  endWatches(state: ClassState, day: string, now: number): void;
  takeBackTrial(state: ClassState, key: string): void;
}

/* class_fit.js: what was kept, and the page and clock by which it is found */

interface ClassFitScript {
  /**
   * Fits a state to page and clock. Tells whether another plan was under way, whether a time lay
   * ahead, since the clock was set back, and whether a stopwatch ran out unseen.
   */
  fitClass(state: ClassState, screen: ScreenClass, now: number): { isOther: boolean; isAhead: boolean; isLate: boolean };
  /** Whether a turn or a reading has its place on this page. */
  isOnPage(screen: ScreenClass, key: string): boolean;
  /** The keys of all that is noted and not taken back. */
  listNoted(state: ClassState): string[];
  /** Moves all times with a clock that was set. */
  shiftTimes(state: ClassState, byMs: number): void;
}

/* class_rows.js: what goes to a file */

/** What the page knows of its class. */
interface ScreenClass {
  key: string;
  /** The day of the class, as 2026-11-24. */
  day: string;
  file: string;
  /** A mark of what is planned when. */
  plan: string;
  /** A mark of each person's name, by id. */
  names: Record<string, string>;
  /** Every turn of the plan: block, person, lesson. */
  turns: string[];
  people: string[];
  others: { person: string; name: string; blocks: string[][] }[];
  blocks: ScreenBlock[];
  /** The words of a practice, as the pacer has them. */
  say: Say;
}

interface ClassRow {
  kind: "attendance" | "result";
  entry: string;
  block: string;
  person: string;
  cells: string[];
}

interface ClassRowsScript {
  /** What a class gives to record, in order; nothing of people who were left out. */
  listRows(state: ClassState, screen: ScreenClass): ClassRow[];
  /** Rows as CSV (RFC 4180), headings first. */
  writeRows(rows: ClassRow[]): string;
  /** How many rows were never saved, and how many were saved otherwise or are gone now. */
  compareRows(state: ClassState, rows: ClassRow[]): { fresh: number; changed: number };
  /** A number as it was typed, with a decimal point; null where it is none or out of range. */
  readNumber(text: string, least: number, most: number): string | null;
}

/* class_store.js */

interface ClassStore {
  /** Whether anything is kept. */
  has(): boolean;
  read(): ClassState;
  /** Keeps the state; tells whether the device does. */
  write(state: ClassState): boolean;
  erase(): void;
}

interface ClassStoreScript {
  makeClassStore(storage: Storage | null, key: string): ClassStore;
}

/* class_backup.js: a second copy, on the disk at once */

interface ClassBackup {
  read(): Promise<string | null>;
  write(state: ClassState): Promise<void>;
  erase(): Promise<void>;
}

interface ClassBackupScript {
  makeBackup(key: string): ClassBackup;
}

/* What the parts of the screen share */

interface AroundClass {
  readonly screen: ScreenClass;
  readonly state: ClassState;
  /** The rows as they stand. */
  rows(): ClassRow[];
  /** Shows figures, or folds them where there is little room. */
  fold(within: ParentNode): void;
  /** Changes what is kept, keeps it, and shows it. */
  change(alter: (state: ClassState) => void): void;
  /** Shows words, and has them read out. */
  tell(words: string): void;
  /** Has words read out that others can see anyway. */
  hear(words: string): void;
}

interface ClassTilesScript {
  /** Shows what is kept in the tiles, and notes what is tapped. */
  makeTiles(around: AroundClass): { show(): void; tick(now: number): void };
}

interface ClassPeopleScript {
  /** Leaves people out, and takes in others with lessons that are theirs to do. */
  makePeople(around: AroundClass): { show(): void };
}

interface ClassPanelScript {
  /** The clock, the count, the tones and the keys of a class. */
  makePanel(around: AroundClass): { show(): void; tick(now: number): void; toggle(): void; turn(by: number): void };
}

interface ClassFileScript {
  /** Saves the rows to a file, shows them, and erases all on request. */
  makeClassFile(around: AroundClass & { erase(): void }): { show(isKept: boolean): void };
}
