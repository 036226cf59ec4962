// How bright each group of cans is by what is set: look-ups in what the engine gave.

import type { Change } from '../engine/commands';
import type { Circuit } from '../engine/results';
import type { Exposure, Group, RoomModel, Vector } from './see_model';

/** What is set: a mood or the job's own levels, then some circuits by hand. */
export interface Lighting {
  readonly mood: string | null;
  /** In percent, by circuit; null: the cans on no circuit. */
  readonly settings: ReadonlyMap<string | null, number>;
}

export const k_as_in_job: Lighting = { mood: null, settings: new Map() };
export const k_full_setting = 100;

export const isAsInJob = ({ mood, settings }: Lighting): boolean => mood === null && settings.size === 0;

/** All circuits at one setting. */
export const allAt = (circuits: readonly Circuit[], setting: number): Lighting => ({
  mood: null,
  settings: new Map(circuits.map(({ name }) => [name, setting])),
});

export const withSetting = ({ mood, settings }: Lighting, circuit: string | null, setting: number): Lighting => ({
  mood,
  settings: new Map([...settings, [circuit, setting]]),
});

/** By group. */
export function levelsOf(
  model: RoomModel,
  { mood, settings }: Lighting,
  circuits: readonly Circuit[],
): readonly number[] {
  const ofMood = mood === null ? undefined : model.moods.get(mood);
  return model.groups.map((group, i) => {
    const setting = settings.get(group.circuit);
    const circuit = circuits.find(({ name }) => name === group.circuit);
    const set = setting === undefined ? undefined : circuit?.light_of_setting[setting];
    return set ?? ofMood?.[i] ?? group.level;
  });
}

/** The colour of a group's light at a level, by a straight line between the tenths that are known. */
export function tintAt({ tint, tints }: Group, level: number): Vector {
  if (!tints) return tint;
  const steps = tints.length - 1;
  const below = Math.min(Math.floor(level * steps), steps - 1);
  const [low, high] = [tints[below] ?? tint, tints[below + 1] ?? tint];
  const share = level * steps - below;
  const mixed = (i: 0 | 1 | 2): number => low[i] + share * (high[i] - low[i]);
  return [mixed(0), mixed(1), mixed(2)];
}

/** The setting that gives a circuit a level, or comes nearest to it; of several that give light alike, the highest. */
export function settingOf({ light_of_setting }: Circuit, level: number): number {
  let nearest = 0;
  let least = Infinity;
  for (const [setting, light] of light_of_setting.entries()) {
    const off = Math.abs(light - level);
    if (off < least || (off === least && level > 0)) [nearest, least] = [setting, off];
  }
  return nearest;
}

/** A circuit and what it is set to. */
export interface CircuitNow {
  readonly circuit: Circuit;
  readonly setting: number;
  /** The least and the most of its cans' levels, which differ only where the job has them so. */
  readonly levels: readonly [number, number];
}

/** Those circuits that have cans. */
export function circuitsNow(model: RoomModel, lighting: Lighting, circuits: readonly Circuit[]): readonly CircuitNow[] {
  const levels = levelsOf(model, lighting, circuits);
  return circuits.flatMap((circuit) => {
    const own = levels.filter((_, i) => model.groups[i]?.circuit === circuit.name);
    const [first] = own;
    if (first === undefined) return [];
    const setting = lighting.settings.get(circuit.name) ?? settingOf(circuit, first);
    return [{ circuit, setting, levels: [Math.min(...own), Math.max(...own)] as const }];
  });
}

/** The changes that give a job's cans these levels. */
export const levelChanges = ({ groups }: RoomModel, levels: readonly number[]): readonly Change[] =>
  groups.flatMap(({ cans }, i) =>
    cans.map((can): Change => ({ set: ['cans', can - 1, 'level'], value: levels[i] ?? 0 })),
  );

/** How a mood has the present settings, as a job file says it. */
export const settingsWritten = (now: readonly CircuitNow[]): Readonly<Record<string, string | number>> =>
  Object.fromEntries(
    now.flatMap(({ circuit: { name, dimmed }, setting }) =>
      name === null ? [] : [[name, dimmed ? `${setting} %` : Number(setting > 0)]],
    ),
  );

const exposureFor = (model: RoomModel, { mood }: Lighting): Exposure =>
  (mood === null ? null : model.moodsExposure) ?? model.exposure;

/** The exposure for models that are looked at together: that of the brightest. */
export function commonExposure(models: readonly [RoomModel, ...RoomModel[]], lighting: Lighting): Exposure {
  const [first, ...others] = models.map((model) => exposureFor(model, lighting));
  return others.reduce(
    (most, each) => (each.adaptation_cd_m2 > most.adaptation_cd_m2 ? each : most),
    first ?? models[0].exposure,
  );
}
