/** Lines of what the program says that quote a file and mark a place in it. */
export const isQuote = (line: string): boolean => /^\s*\d*\s\|/.test(line);

/** What the program says is wrong, without the lines of the file that it quotes: for beside a field. */
export function problemText(message: string): string {
  return message
    .split('\n')
    .filter((line) => !isQuote(line))
    .map((line) => line.replace(/^.*?:\d+:\d+: /, '').replace(/^hint: /, ''))
    .filter((line) => line.trim() !== '')
    .map((line) => line.charAt(0).toUpperCase() + line.slice(1))
    .join('. ');
}
