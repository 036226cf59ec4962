// The things of a job that stand on its plan: where the job's text has them, and where they are.

import type { Can, Point, Room } from '../engine/results';
import type { Path } from '../job/written';

/** Where each kind is in the job's text, and what people call it. */
export const k_kinds = {
  can: { list: ['cans'], title: 'Can' },
  obstruction: { list: ['obstructions'], title: 'Furniture' },
  keep_out: { list: ['keep_outs'], title: 'Keep-out' },
  fan: { list: ['fans'], title: 'Fan' },
  wall_area: { list: ['wall_areas'], title: 'On the wall' },
  task_area: { list: ['task_areas'], title: 'Task area' },
  seat: { list: ['seats'], title: 'Seat' },
  point: { list: ['points'], title: 'Point' },
  view: { list: ['views'], title: 'Place of a picture' },
  switch: { list: ['wiring', 'switches'], title: 'Switch' },
} as const satisfies Record<string, { list: readonly string[]; title: string }>;

export type Kind = keyof typeof k_kinds;

export interface Thing {
  readonly kind: Kind;
  /** Counted from 1, in the order of the job's text. */
  readonly number: number;
}

export const isKind = (word: string | undefined): word is Kind => word !== undefined && Object.hasOwn(k_kinds, word);

export const isSame = (a: Thing | null, b: Thing | null): boolean => a?.kind === b?.kind && a?.number === b?.number;

export const pathOf = ({ kind, number }: Thing): Path => [...k_kinds[kind].list, number - 1];

const middle = (places: readonly Point[]): Point => {
  const mid = (axis: 0 | 1): number => {
    const all = places.map((place) => place[axis]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  return [mid(0), mid(1)];
};

interface Placed {
  readonly name: string;
  readonly at: Point;
}

const standing = (thing: { name: string; x_m: number; y_m: number }): Placed => ({
  name: thing.name,
  at: [thing.x_m, thing.y_m],
});
const outlined = (thing: { name: string; outline: readonly Point[] }): Placed => ({
  name: thing.name,
  at: middle(thing.outline),
});

const k_placed: Record<Kind, (room: Room) => readonly Placed[]> = {
  can: (room) => room.cans.map((can) => ({ name: `Can ${can.number}`, at: [can.x_m, can.y_m] })),
  obstruction: (room) => room.obstructions.map(outlined),
  keep_out: (room) => room.keep_outs.map(outlined),
  fan: (room) => room.fans.map(standing),
  wall_area: (room) => room.wall_areas.map((area) => ({ name: area.name, at: middle(area.line) })),
  task_area: (room) => room.task_areas.map(outlined),
  seat: (room) => room.seats.map(standing),
  point: (room) => room.points.map(standing),
  view: (room) => room.views.map(standing),
  switch: (room) => room.switches.map(standing),
};

/** All of a kind, in the order of their numbers. */
export const allOf = (room: Room, kind: Kind): readonly Placed[] => k_placed[kind](room);

/** Null where there is none any more. */
export const placedThing = (room: Room, { kind, number }: Thing): Placed | null => allOf(room, kind)[number - 1] ?? null;

/** Where from the walls a can is, in words. */
const tapedText = (can: Can): string => can.from.map((taped) => `${taped.text} from ${taped.wall}`).join(', ');

/** Where no hole of a flush can is known, the engine checks nothing above it. */
export const isUnchecked = (room: Room, can: Can): boolean =>
  !can.hangs && room.can_types.find(({ name }) => name === can.type)?.hole_m === null;

export const k_unchecked = 'not checked against joists and vents: the size of its hole is not known';

/** A can as it is told to people who do not see the plan. */
export function canWords(room: Room, can: Can): string {
  const circuit = can.circuit === null ? '' : `, circuit ${can.circuit}`;
  const hits = can.hits.length === 0 ? '' : `, does not fit: ${can.hits.join(', ')}`;
  const unchecked = isUnchecked(room, can) ? `, ${k_unchecked}` : '';
  return `Can ${can.number}, ${can.type}${circuit}, ${tapedText(can)}${hits}${unchecked}`;
}

/** Lower case letters tell circuits apart on the plan, in their order. */
export function circuitLetter(room: Room, name: string | null): string {
  const at = room.circuits.filter((circuit) => circuit.name !== null).findIndex((circuit) => circuit.name === name);
  return at < 0 ? '' : String.fromCharCode(97 + (at % 26));
}
