/** What the program says is wrong, without the lines of the file that it quotes: for beside a field. */
export function problemText(message: string): string {
  return message
    .split('\n')
    .filter((line) => !/^\s*\d*\s*\|/.test(line))
    .map((line) => line.replace(/^.*?:\d+:\d+: /, '').replace(/^hint: /, ''))
    .filter((line) => line.trim() !== '')
    .map((line) => line.charAt(0).toUpperCase() + line.slice(1))
    .join('. ');
}
