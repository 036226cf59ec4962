// Fields that are bound to a place in the job's text: they show what is written there, and write there.

import type { Room } from '../engine/results';
import { change, room } from '../job/job_desk';
import { keysAt, type Path, wordAt, writtenAt } from '../job/written';
import { type Commit, Field, SelectField } from '../parts/field';
import { fieldWords } from '../parts/field_words';
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
    if (writtenAt(path) === undefined) return '';
    const why = await change([{ remove: path }]);
    return why && `This cannot be empty: ${fieldWords(why)}`;
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

/** A wall that runs square to an axis of the plan: its two corners have one coordinate in common. */
interface SquareWall {
  readonly name: string;
  /** 0: it runs north, so far east of the plan's origin; 1: it runs east. */
  readonly axis: 0 | 1;
  readonly corners: readonly [number, number];
}

const k_same_m = 1e-6;

/** The walls of a room in which all are square to each other; none where one is not. */
function squareWalls({ room: { corners } }: Room): readonly SquareWall[] {
  const walls = corners.flatMap((from, i): readonly SquareWall[] => {
    const next = (i + 1) % corners.length;
    const to = corners[next];
    if (!to) return [];
    const name = from.wall_from_here;
    if (Math.abs(from.x_m - to.x_m) < k_same_m) return [{ name, axis: 0, corners: [i, next] }];
    if (Math.abs(from.y_m - to.y_m) < k_same_m) return [{ name, axis: 1, corners: [i, next] }];
    return [];
  });
  return walls.length === corners.length ? walls : [];
}

const wallPath = ({ axis, corners: [corner] }: SquareWall): Path => ['room', 'corners', corner, axis];

/** Where each wall is, so that it moves as a whole and stays square to its neighbours: as far from the one across as is typed. */
export function WallFields({ room }: { room: Room }) {
  const walls = squareWalls(room);
  const isOrigin = ({ axis, corners: [corner] }: SquareWall): boolean => {
    const at = room.room.corners[corner];
    return at !== undefined && Math.abs(axis === 0 ? at.x_m : at.y_m) < k_same_m;
  };
  const from = (axis: 0 | 1): string => {
    const origin = walls.find((wall) => wall.axis === axis && isOrigin(wall));
    return origin ? `from the ${origin.name} wall` : axis === 0 ? 'from the west of the plan' : 'from the south of the plan';
  };
  const commit = ({ axis, corners }: SquareWall): Commit => (text) =>
    change(corners.map((corner) => ({ set: ['room', 'corners', corner, axis], value: text.trim() })));
  return (
    <div class="fields">
      {walls
        .filter((wall) => !isOrigin(wall))
        .map((wall) => (
          <TapeField
            key={wall.name}
            label={`${wall.name} wall, ${from(wall.axis)}`}
            value={wordAt(wallPath(wall))}
            units={room.units}
            onCommit={commit(wall)}
          />
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
