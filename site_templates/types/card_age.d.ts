// card_age.js: printed cards against the lesson's page.

interface CardRelease {
  code: string;
  /** The day, as 2026-11-05. */
  on: string;
  why: string;
}

/** All that is known of a lesson's card, for clients or for coaches. */
interface CardVersions {
  now: string;
  /** Oldest first. */
  releases: CardRelease[];
}

interface CardAgeScript {
  /**
   * What there is to say of a card with a code. Old has the changes since; changed is a card whose
   * lesson has changed without a release.
   */
  judgeCard(
    versions: CardVersions[], code: string,
  ): { kind: "current" | "old" | "changed" | "unknown"; changes: CardRelease[] };
}
