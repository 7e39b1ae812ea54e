// What the page hears from worker/service_worker.js.

/** Files that are kept on request. */
interface KeptGroup {
  name: string;
  bytes: number;
  /** Whether all of them are kept already. */
  isWhole: boolean;
}

interface KeptSoFar {
  done?: number;
  count?: number;
  isWhole?: boolean;
  hasFailed?: boolean;
}
