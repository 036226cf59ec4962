import { useId, useState } from 'preact/hooks';
import { fieldWords } from './field_words';

/** Takes what was typed. Returns what is wrong with it; empty when it is taken. */
export type Commit = (text: string) => Promise<string>;

export interface FieldProps {
  readonly label: string;
  /** As the job has it. */
  readonly value: string;
  readonly onCommit: Commit;
  readonly hint?: string;
}

/** What is being typed into a field. What the engine refuses stays in the field, with the reason beside it. */
export function useDraft(value: string, onCommit: Commit) {
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState('');
  const id = useId();
  const commit = async (): Promise<void> => {
    if (draft === null) return;
    const why = draft === value ? '' : await onCommit(draft);
    setProblem(why);
    if (!why) setDraft(null);
  };
  return { id, text: draft ?? value, type: setDraft, commit, problem: fieldWords(problem) };
}

/** Names the texts below a field for those who hear it. */
export const describedBy = (id: string, hint: string | undefined, problem: string): string =>
  [hint && `${id}-hint`, problem && `${id}-problem`].filter(Boolean).join(' ');

export function FieldTexts({ id, hint, problem }: { id: string; hint: string | undefined; problem: string }) {
  return (
    <>
      {hint && (
        <span class="soft entry-text" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      <span class="wrong entry-text" id={`${id}-problem`} role="status">
        {problem}
      </span>
    </>
  );
}

/** A line of text that becomes a change of the job on Enter or when it is left. */
export function Field({ label, value, onCommit, hint }: FieldProps) {
  const { id, text, type, commit, problem } = useDraft(value, onCommit);
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={text}
        autocomplete="off"
        aria-invalid={problem !== ''}
        aria-describedby={describedBy(id, hint, problem)}
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={() => void commit()}
        onKeyDown={(event) => {
          if (event.key === 'Enter') void commit();
        }}
      />
      <FieldTexts id={id} hint={hint} problem={problem} />
    </div>
  );
}

interface SelectFieldProps extends FieldProps {
  readonly choices: readonly { readonly value: string; readonly label: string }[];
}

/** One of some words. */
export function SelectField({ label, value, choices, onCommit, hint }: SelectFieldProps) {
  const [problem, setProblem] = useState('');
  const id = useId();
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={describedBy(id, hint, problem)}
        onChange={async (event) => setProblem(await onCommit(event.currentTarget.value))}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
      <FieldTexts id={id} hint={hint} problem={fieldWords(problem)} />
    </div>
  );
}
