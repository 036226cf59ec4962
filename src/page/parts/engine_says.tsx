import { useEffect, useRef } from 'preact/hooks';
import { Fold } from './fold';
import { isQuote } from './problem_text';

interface EngineSaysProps {
  readonly text: string;
  readonly id?: string | undefined;
}

/** Where the program found it in the text that the page gave it; the user has no file of that name. */
const k_place = /^job\.toml(?:, changed)?(?::\d+:\d+)?: /i;

const sentence = (line: string): string => {
  const plain = line.replace(k_place, '').replace(/^hint: /, '');
  return plain === line ? line : plain.charAt(0).toUpperCase() + plain.slice(1);
};

/** What the engine says is wrong, in words, and folded away the lines of the file that it quotes. */
export function EngineSays({ text, id }: EngineSaysProps) {
  const shown = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (text) shown.current?.scrollIntoView({ block: 'nearest' }); // it may come where nobody looks
  }, [text]);
  const lines = text.trimEnd().split('\n');
  const quotes = lines.filter(isQuote);
  return (
    <div class="engine-says" id={id} role="alert" ref={shown}>
      {text && <p>{lines.filter((line) => !isQuote(line)).map(sentence).join('\n')}</p>}
      {quotes.length > 0 && (
        <Fold title="Where it stands in the job’s text">
          <pre tabIndex={0}>{quotes.join('\n')}</pre>
        </Fold>
      )}
    </div>
  );
}
