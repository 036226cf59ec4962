import { isQuote } from './problem_text';

interface EngineSaysProps {
  readonly text: string;
  readonly id?: string | undefined;
}

/** Lines that belong together: sentences, or a quote. */
function blocks(text: string): readonly string[][] {
  const all: string[][] = [];
  for (const line of text.trimEnd().split('\n')) {
    const last = all.at(-1);
    if (last?.[0] !== undefined && isQuote(last[0]) === isQuote(line)) last.push(line);
    else all.push([line]);
  }
  return all;
}

/** What the engine says is wrong, as it would at a terminal; nothing where it says nothing. */
export function EngineSays({ text, id }: EngineSaysProps) {
  return (
    <div class="engine-says" id={id} role="alert">
      {text &&
        blocks(text).map((lines, index) =>
          isQuote(lines[0] ?? '') ? (
            <pre key={index} tabIndex={0}>
              {lines.join('\n')}
            </pre>
          ) : (
            <p key={index}>{lines.join('\n')}</p>
          ),
        )}
    </div>
  );
}
