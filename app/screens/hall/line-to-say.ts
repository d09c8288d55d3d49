/** As many letters as one row takes at 28 px on a phone on its side, and two rows on one that stands. */
const FULL_SIZE = 60;

/**
 * A line as it is said. Of "Half squat: go half as far: less to lift" the reason after the second colon is for reading
 * at home; where the rest is still long, the name goes, which stands under its figure anyway.
 */
export function lineToSay(line: string): string {
  const [name = '', what, ...reasons] = line.split(': ');
  if (what === undefined) return line;
  const said = reasons.length > 0 ? `${name}: ${what}` : line;
  return said.length <= FULL_SIZE ? said : what;
}

export function lineSize(line: string): 'full' | 'small' {
  return line.length <= FULL_SIZE ? 'full' : 'small';
}
