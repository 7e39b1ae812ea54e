/** What a built site holds. */
interface Edition {
  /** Made from all of it. */
  code: string;
  /** Hash by path: what is kept at once. */
  pages: Record<string, string>;
  /** What is kept on request, by the name of a group. */
  kept: Record<string, { bytes: number; files: Record<string, string> }>;
}
