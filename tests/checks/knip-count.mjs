/**
 * Beside knip's own report: how many files it has read, so that a run which read too few is seen.
 *
 * @param {{ counters: { total: number } }} options
 */
export default ({ counters }) => process.stdout.write(`files read: ${counters.total}\n`);
