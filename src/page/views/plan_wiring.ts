// Circuits and what works them, as changes of the job.

import type { Change } from '../engine/commands';
import type { Can, Room } from '../engine/results';
import { keysAt, writtenAt } from '../job/written';

const k_usual_dimmer = 'wall_box';

export const circuitNames = (): readonly string[] => keysAt(['circuits']);

/** A name that no circuit has. */
function freeCircuitName(): string {
  const taken = new Set(circuitNames());
  if (!taken.has('general')) return 'general';
  for (let i = 2; ; ++i) if (!taken.has(`circuit ${i}`)) return `circuit ${i}`;
}

/** What works a circuit: a dimmer of a kind, or a plain switch. */
export function workedBy(circuit: string, dimmer: string | null): readonly Change[] {
  const set: Change = { set: ['circuits', circuit], value: dimmer === null ? { switch: true } : { dimmer } };
  if (dimmer === null || writtenAt(['dimmers', dimmer]) !== undefined) return [set];
  return [{ set: ['dimmers', dimmer], value: { curve: 'linear' } }, set];
}

/** The first kind of dimmer that the job has, or a usual one. */
export const someDimmer = (): string => keysAt(['dimmers'])[0] ?? k_usual_dimmer;

export const onCircuit = (can: number, circuit: string): Change => ({ set: ['cans', can - 1, 'circuit'], value: circuit });

interface NewCircuit {
  readonly name: string;
  readonly changes: readonly Change[];
}

/** A new circuit with cans on it. */
export function newCircuit(cans: readonly Can[], isDimmed: boolean): NewCircuit {
  const name = freeCircuitName();
  const changes = [...workedBy(name, isDimmed ? someDimmer() : null), ...cans.map((can) => onCircuit(can.number, name))];
  return { name, changes };
}

/** The circuits that a new switch may have: those on none; where the job has no circuit at all, a new one of all cans. */
export function circuitsForSwitch(room: Room): { readonly names: readonly string[]; readonly changes: readonly Change[] } {
  const switched = new Set(room.switches.flatMap(({ circuits }) => circuits));
  if (circuitNames().length > 0) return { names: circuitNames().filter((name) => !switched.has(name)), changes: [] };
  const { name, changes } = newCircuit(room.cans, true);
  return { names: [name], changes };
}
