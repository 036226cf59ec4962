/** The rows of a file of comma-separated values (RFC 4180). */
export function rowsOfCommas(text: string): readonly (readonly string[])[] {
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/y;
  const rows: string[][] = [];
  let row: string[] = [];
  while (cell.lastIndex < text.length) {
    const match = cell.exec(text);
    if (!match) break;
    row.push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
    if (match[3] === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}
