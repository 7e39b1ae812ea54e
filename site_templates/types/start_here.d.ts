// What the scripts of the page "Start here" share.

/* hold.js: times are milliseconds since 1970 */

/** What a reload must not undo: the tries in seconds, and when the rest after the last one ends. */
interface KeptHold {
  seconds: number[];
  restEnds: number;
}

interface Hold {
  /** Where it stands: seconds gone of a hold, or left of a rest. */
  at(now: number): { kind: "ready" | "running" | "resting" | "over"; seconds: number };
  /** Starts a hold, or ends the one that runs; less than a second is no try. */
  press(now: number): void;
  /** Ends the hold that runs as if it had not been; tells whether one did. */
  drop(): boolean;
  /** How many tries are left. */
  left(): number;
  /** The longest try in seconds, null before the first. */
  best(): number | null;
  words(): string;
  kept(): KeptHold;
}

interface HoldScript {
  makeHold(kept: KeptHold): Hold;
}

/* placement.js: the table of the page, and what comes of it */

type Wanted = string[] | { least: number | null; under: number | null }; // answers, or seconds

interface Start {
  strand: string;
  ways: { when: [string, Wanted][]; lesson: string; why: string }[]; // when is by question
}

interface PlacementScript {
  /** AsksFirst: a clinician comes before any lesson. */
  place(
    starts: Start[], answers: Record<string, string | number>, asksFirst: boolean,
  ): { strand: string; lesson: string; why: string }[];
}
