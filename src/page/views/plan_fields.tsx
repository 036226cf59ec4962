// Fields that are bound to a place in the job's text: they show what is written there, and write there.

import { change, room } from '../job/job_desk';
import { keysAt, type Path, wordAt, writtenAt } from '../job/written';
import { type Commit, Field, SelectField } from '../parts/field';
import { TapeField } from '../parts/tape_field';

/** How a value is typed, and what is written of it. */
export type Form = 'length' | 'number' | 'text';

/** One key of a thing. */
export interface Key {
  readonly key: string;
  readonly label: string;
  readonly form: Form;
  readonly hint?: string;
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  /** Of the choices the one that holds where nothing is written. */
  readonly usual?: string;
}

/** Numbers are written as numbers where they are some; what is none the engine refuses in its own words. */
function valueOf(text: string, form: Form): string | number {
  const typed = text.trim();
  return form === 'number' && typed !== '' && Number.isFinite(Number(typed)) ? Number(typed) : typed;
}

/** Writes at a path; what is left empty is taken away. */
export const writing =
  (path: Path, form: Form): Commit =>
  async (text) => {
    if (text.trim() !== '') return change([{ set: path, value: valueOf(text, form) }]);
    return writtenAt(path) === undefined ? '' : change([{ remove: path }]);
  };

export function PathField({ path, label, form, hint, choices, usual }: Omit<Key, 'key'> & { readonly path: Path }) {
  const shared = { label, value: wordAt(path) || (usual ?? ''), onCommit: writing(path, form), ...(hint ? { hint } : {}) };
  if (choices) return <SelectField {...shared} choices={choices} />;
  return form === 'length' ? <TapeField {...shared} units={room.value?.units ?? 'imperial'} /> : <Field {...shared} />;
}

export function PathFields({ path, keys }: { path: Path; keys: readonly Key[] }) {
  return (
    <div class="fields">
      {keys.map(({ key, ...field }) => (
        <PathField key={key} path={[...path, key]} {...field} />
      ))}
    </div>
  );
}

/** Distances from the walls that something is taped from. */
export function TapedFields({ path }: { path: Path }) {
  return (
    <div class="fields">
      {keysAt([...path, 'from']).map((wall) => (
        <PathField key={wall} path={[...path, 'from', wall]} label={`From ${wall}`} form="length" />
      ))}
    </div>
  );
}

const k_axes = ['East', 'North', 'Up'] as const;

/** Corners in their order, each so far east and north (and up). */
export function CornerFields({ path }: { path: Path }) {
  return (
    <fieldset>
      <legend>Corners</legend>
      {keysAt(path).map((corner) => (
        <div class="fields" key={corner}>
          {keysAt([...path, Number(corner)]).map((axis) => (
            <PathField
              key={axis}
              path={[...path, Number(corner), Number(axis)]}
              label={`Corner ${Number(corner) + 1}, ${k_axes[Number(axis)] ?? ''}`}
              form="length"
            />
          ))}
        </div>
      ))}
    </fieldset>
  );
}
