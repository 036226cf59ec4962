// The program's commands, one function each: the words of a command in, what it wrote out.

import type { Engine } from './engine';
import type { Command, Done, Files } from './messages';
import type { Comparison, JobComparison, Light, Moods, Photometry, PlacedCan, Point, Room, Search } from './results';

/** The job's TOML text and the files that it names, by their paths from it. */
export interface JobFiles {
  readonly text: string;
  readonly files: Files;
}

/** What a command says is wrong, as it would at a terminal. */
export class Refused extends Error {}

export const k_job = 'job.toml';
const k_changed = 'changed.toml';

const decoder = new TextDecoder();

/** A change to the text of a job, as `evenlit change` takes it. */
export type Change =
  | { readonly set: readonly (string | number)[]; readonly value: unknown }
  | { readonly remove: readonly (string | number)[] }
  | { readonly add: readonly string[]; readonly value: Readonly<Record<string, unknown>> }
  | { readonly move: readonly (string | number)[]; readonly to_m: readonly [number, number] }
  | { readonly cans: readonly { type: string; x_m: number; y_m: number; circuit?: string }[] };

const png = (bytes: Uint8Array): Blob => new Blob([bytes as BlobPart], { type: 'image/png' });

const written = (step: Done | undefined, name: string): Uint8Array => {
  const bytes = step?.files[name];
  if (!bytes) throw new Refused(step?.problems || 'The program wrote nothing.');
  return bytes;
};

const parsed = <T>(step: Done | undefined, name: string): T => JSON.parse(decoder.decode(written(step, name))) as T;

const filesOf = (job: JobFiles): Files => ({ ...job.files, [k_job]: job.text });

const command = (words: string, ...wanted: string[]): Command => ({ words: words.split(' '), wanted });

/** @throws Refused when the command fails */
async function ran(
  engine: Engine,
  job: JobFiles,
  words: readonly string[],
  wanted: readonly string[],
  onProgress?: (text: string) => void,
): Promise<Done> {
  const [step] = await engine.run(filesOf(job), [{ words, wanted }], onProgress);
  if (!step || step.status !== 0) throw new Refused(step?.problems || 'The program broke down.');
  return step;
}

/** What a command writes as JSON. */
async function jsonOf<T>(
  engine: Engine,
  job: JobFiles,
  words: readonly string[],
  onProgress?: (text: string) => void,
): Promise<T> {
  const file = `${words[0]}.json`;
  return parsed<T>(await ran(engine, job, [...words, '--json', file], [file], onProgress), file);
}

/** A job resolved, its light, and the picture of the light to lay under its plan. */
export interface Lit {
  readonly room: Room;
  readonly light: Light;
  readonly floor: Blob;
}

/** The room alone: what can be drawn of a job whose light cannot be computed, one without cans say. */
export const roomOf = (engine: Engine, job: JobFiles): Promise<Room> => jsonOf<Room>(engine, job, ['room', k_job]);

/** Where a colour scale ends, so that pictures compare; null: as suits the job. */
const topWords = (top_lx: number | null): readonly string[] => (top_lx === null ? [] : ['--top', `${top_lx} lx`]);

const roomAndLight = (job: string, size: readonly string[], top_lx: number | null = null): readonly Command[] => [
  command(`room ${job} --json room.json`, 'room.json'),
  {
    words: ['light', job, '--json', 'light.json', '--floor', 'floor.png', ...size, ...topWords(top_lx)],
    wanted: ['light.json', 'floor.png'],
  },
];

const k_usual = ['--width', '480'];
const k_rough = ['--width', '200', '--quick'];

const litBy = (room: Done | undefined, light: Done | undefined): Lit => ({
  room: parsed<Room>(room, 'room.json'),
  light: parsed<Light>(light, 'light.json'),
  floor: png(written(light, 'floor.png')),
});

export async function lit(engine: Engine, job: JobFiles): Promise<Lit> {
  const [room, light] = await engine.run(filesOf(job), roomAndLight(k_job, k_usual));
  return litBy(room, light);
}

/** Roughly, while something is moved. */
export async function roughlyLit(engine: Engine, job: JobFiles, top_lx: number | null): Promise<Lit> {
  const [room, light] = await engine.run(filesOf(job), roomAndLight(k_job, k_rough, top_lx));
  return litBy(room, light);
}

/** The light of a job alone. */
export const lightOf = (engine: Engine, job: JobFiles): Promise<Light> => jsonOf<Light>(engine, job, ['light', k_job]);

/**
 * The text of a job with changes; all else of it stays as it is.
 *
 * @throws Refused when the changed job would be wrong
 */
export async function changedText(engine: Engine, job: JobFiles, changes: readonly Change[]): Promise<string> {
  const files = { ...filesOf(job), 'changes.json': JSON.stringify(changes) };
  const [step] = await engine.run(files, [command(`change ${k_job} changes.json --write ${k_changed}`, k_changed)]);
  return decoder.decode(written(step, k_changed));
}

const holesNear = (can: number, x_m: number, y_m: number): string =>
  `holes ${k_job} --can ${can} --near=${x_m.toFixed(4)}m,${y_m.toFixed(4)}m`;

/** Where a can may go that somebody wants near a place. */
export const placed = (engine: Engine, job: JobFiles, can: number, x_m: number, y_m: number): Promise<PlacedCan> =>
  jsonOf<PlacedCan>(engine, job, holesNear(can, x_m, y_m).split(' '));

/** Where a can may go. */
export interface Moved {
  readonly placed: PlacedCan;
  /**
   * Roughly the light with it there; null where it can go nowhere near.
   *
   * @throws Refused when the light cannot be computed
   */
  readonly lit: () => Lit | null;
}

/**
 * Puts a can where it may go near a place that somebody wants it at: in one run, for it follows a hand.
 *
 * @throws Refused when the job is wrong
 */
export async function moved(
  engine: Engine,
  job: JobFiles,
  can: number,
  [x_m, y_m]: Point,
  top_lx: number | null,
): Promise<Moved> {
  const [place, room, light] = await engine.run(filesOf(job), [
    command(`${holesNear(can, x_m, y_m)} --json place.json --write ${k_changed}`, 'place.json', k_changed),
    ...roomAndLight(k_changed, k_rough, top_lx),
  ]);
  const placed = parsed<PlacedCan>(place, 'place.json');
  return { placed, lit: () => (placed.place ? litBy(room, light) : null) };
}

export function compared(
  engine: Engine,
  job: JobFiles,
  counts: readonly number[],
  onProgress?: (text: string) => void,
): Promise<Comparison> {
  return jsonOf<Comparison>(engine, job, ['compare', k_job, '--counts', counts.join(',')], onProgress);
}

/** The job as it was at an earlier time beside the job. */
export function comparedToEarlier(engine: Engine, job: JobFiles, earlierText: string): Promise<JobComparison> {
  const files = { ...job.files, 'before.toml': earlierText };
  return jsonOf<JobComparison>(engine, { ...job, files }, ['compare', 'before.toml', k_job]);
}

/**
 * The picture of a job's light alone, to lay under a small plan.
 *
 * @param top_lx where the colour scale ends, so that several pictures compare; null: as suits this job
 */
export async function floorPicture(engine: Engine, job: JobFiles, width_px: number, top_lx: number | null): Promise<Blob> {
  const words = ['light', k_job, '--floor', 'floor.png', '--width', String(width_px), '--quick', ...topWords(top_lx)];
  return png(await made(engine, job, words, 'floor.png'));
}

/** What a photometric file says of its luminaire, and what is odd in the file. */
export async function photometryOf(engine: Engine, name: string, bytes: Uint8Array): Promise<Photometry> {
  const path = name.startsWith('-') ? `./${name}` : name; // or it would be an option
  const words = ['photometry', path, '--json', 'photometry.json'];
  const [step] = await engine.run({ [path]: bytes }, [{ words, wanted: ['photometry.json'] }]);
  return parsed<Photometry>(step, 'photometry.json');
}

export async function versionOf(engine: Engine): Promise<string> {
  const [step] = await engine.run({}, [{ words: ['--version'], wanted: [] }]);
  return step?.text.trim() ?? '';
}

export function searched(
  engine: Engine,
  job: JobFiles,
  count: number,
  onProgress?: (text: string) => void,
): Promise<Search> {
  return jsonOf<Search>(engine, job, ['search', k_job, '--counts', String(count)], onProgress);
}

export const moodsOf = (engine: Engine, job: JobFiles): Promise<Moods> => jsonOf<Moods>(engine, job, ['moods', k_job]);

/** Any command that writes one file. */
export async function made(
  engine: Engine,
  job: JobFiles,
  words: readonly string[],
  file: string,
  onProgress?: (text: string) => void,
): Promise<Uint8Array> {
  return written(await ran(engine, job, words, [file], onProgress), file);
}
