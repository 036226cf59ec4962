import type { Change } from '../engine/commands';
import type { Can, Layout, Place, Room } from '../engine/results';

const k_same_place_m = 1e-3;

const isAt = (can: Can, place: Place): boolean => Math.hypot(can.x_m - place.x_m, can.y_m - place.y_m) < k_same_place_m;

/** The cans of the job that a comparison laid out anew, as indices. */
function laidOut(cans: readonly Can[], own: readonly Place[]): readonly number[] {
  const left = new Set(cans.keys());
  const found: number[] = [];
  for (const place of own) {
    for (const index of left) {
      const can = cans[index];
      if (!can || !isAt(can, place)) continue;
      found.push(index);
      left.delete(index);
      break;
    }
  }
  return found;
}

/** The cans of the job that stay where they are in every layout of a comparison. */
export function stayingCans({ cans }: Room, own: Layout): readonly Can[] {
  const moving = new Set(laidOut(cans, own.positions));
  return cans.filter((_, index) => !moving.has(index));
}

/**
 * The changes that give a job another layout: its cans move, so that they keep what else is written of them; what is missing
 * is added like the first of them, what is too many goes.
 *
 * @param room of the job that the layout was made for
 * @param own the job's own layout in the same comparison
 */
export function layoutChanges(room: Room, own: Layout, layout: Layout): readonly Change[] {
  const before = laidOut(room.cans, own.positions);
  const first = room.cans[before[0] ?? -1];
  if (!first) return [];
  const to_m = ({ x_m, y_m }: Place): [number, number] => [x_m, y_m];
  const like = {
    type: layout.type,
    from: Object.fromEntries(first.from.map(({ wall, text }) => [wall, text])),
    ...(first.circuit === null ? {} : { circuit: first.circuit }),
    ...(first.level === 1 ? {} : { level: first.level }),
    ...(first.aim === null ? {} : { aim: { tilt: first.aim.tilt_deg, toward: first.aim.toward_deg } }),
  };
  return [
    ...layout.positions.flatMap((place, i): Change[] => {
      const index = before[i];
      if (index !== undefined) return [{ move: ['cans', index], to_m: to_m(place) }];
      const added = room.cans.length + i - before.length;
      return [
        { add: ['cans'], value: like },
        { move: ['cans', added], to_m: to_m(place) },
      ];
    }),
    ...before
      .slice(layout.positions.length)
      .sort((a, b) => b - a)
      .map((index): Change => ({ remove: ['cans', index] })),
  ];
}
