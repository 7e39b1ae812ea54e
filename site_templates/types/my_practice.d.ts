// What the scripts of the page "My practice" share.

/** A lesson as the page lists it. */
interface ListedLesson {
  id: string;
  before: string[];
  /** How many signs of "ready when" it has. */
  boxes: number;
  title: string;
  href: string;
  /** Its former ids. */
  was: string[];
}

/* qr.js */

interface QrScript {
  /**
   * A text as rows of cells, true where dark, without the light margin. Throws a RangeError for
   * more than 858 bytes. Without a mask, the one of the eight that is easiest to read is taken.
   */
  makeQr(text: string, mask?: number): boolean[][];
}

/* hand_over.js */

interface HandOverScript {
  /** Addresses of a page that hold it all, but for what of a lesson is too long for one. */
  listHandOvers(
    data: Practice, page: string, withNotes: boolean,
  ): { addresses: string[]; left: string[] };
  /** What the fragment of an address holds; null where it is none of ours. */
  readHandOver(fragment: string): { data: Practice; part: number; parts: number } | null;
}

/* take_along.js */

interface TakeAlong {
  practice: PracticeStore;
  /** Hands what was kept under former ids over. */
  follow(data: Practice): Practice;
  show(): void;
  tell(words: string): void;
  titleOf(lesson: string): string;
}

interface TakeAlongScript {
  /** Close takes the codes off the screen. */
  makeTakeAlong(around: TakeAlong): { close(): void };
}
