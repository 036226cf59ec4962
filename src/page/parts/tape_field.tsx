import { useState } from 'preact/hooks';
import { describedBy, type FieldProps, FieldTexts, useDraft } from './field';
import { Icon } from './icon';
import type { Units } from './light_text';
import { TapeKeys } from './tape_keys';

interface TapeFieldProps extends FieldProps {
  readonly units: Units;
  /** What was found wrong with the value after it was taken. */
  readonly found?: string | undefined;
}

/** A length as a tape reads it, typed or by keys of its own: 12' 6-3/8", 150 3/8", 3.81 m. */
export function TapeField({ label, value, onCommit, hint, units, found = '' }: TapeFieldProps) {
  const { id, text, type, commit, problem: refusal } = useDraft(value, onCommit);
  const problem = refusal || found;
  const [isOpen, setOpen] = useState(false);
  return (
    <div
      class="entry"
      onFocusOut={(event) => {
        const next = event.relatedTarget;
        if (!(next instanceof Node && event.currentTarget.contains(next))) void commit();
      }}
    >
      <label for={id}>{label}</label>
      <span class="tape-line">
        <input
          id={id}
          value={text}
          autocomplete="off"
          inputMode={isOpen ? 'none' : 'text'}
          aria-invalid={problem !== ''}
          aria-describedby={describedBy(id, hint, problem)}
          onInput={(event) => type(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') void commit();
          }}
        />
        {isOpen ? (
          <button
            type="button"
            class="main"
            aria-expanded="true"
            aria-label={`OK: ${label}`}
            onClick={() => {
              setOpen(false);
              void commit();
            }}
          >
            OK
          </button>
        ) : (
          <button type="button" aria-expanded="false" aria-label={`Keys for: ${label}`} onClick={() => setOpen(true)}>
            <Icon name="tape" />
          </button>
        )}
      </span>
      <FieldTexts id={id} hint={hint} problem={problem} />
      {isOpen && <TapeKeys units={units} text={text} isUntouched={text === value} onType={type} />}
    </div>
  );
}
