import type { Place, Point, Room } from '../engine/results';
import { useBlobAddress } from './blob_address';

interface SmallPlanProps {
  readonly room: Room;
  readonly cans: readonly Place[];
  /** Cans that every layout has. */
  readonly staying: readonly Place[];
  /** The picture of the light, over the room's bounding rectangle; null while it is made. */
  readonly floor: Blob | null;
  /** What it shows, for who cannot see it. */
  readonly label: string;
}

const k_can_m = 0.11;

/** A plan too small to work in: the light, what is in the room and its ceiling, the walls, the cans. */
export function SmallPlan({ room, cans, staying, floor, label }: SmallPlanProps) {
  const address = useBlobAddress(floor);
  const at = ({ x_m, y_m }: Place): Point => [x_m, -y_m];
  const walls = room.room.corners.map(at);
  const [xs, ys] = [walls.map(([x]) => x), walls.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const edge = 0.02 * Math.max(width, height);
  const can = Math.max(k_can_m, edge);
  const dot = (place: Place, kind: string, radius: number) => {
    const [x, y] = at(place);
    return <circle key={`${x} ${y}`} class={kind} cx={x} cy={y} r={radius} />;
  };
  const shape = (outline: readonly Point[], kind: string, key: string) => (
    <polygon key={key} class={kind} points={outline.map(([x, y]) => `${x},${-y}`).join(' ')} />
  );
  return (
    <svg
      class="small-plan"
      role="img"
      aria-label={label}
      viewBox={`${left - edge} ${top - edge} ${width + 2 * edge} ${height + 2 * edge}`}
    >
      {address && (
        <image href={address} x={left} y={top} width={width} height={height} preserveAspectRatio="none" />
      )}
      {room.obstructions.map(({ number, outline }) => shape(outline, 'thing', `thing ${number}`))}
      {room.framing.map(({ outline }, i) => shape(outline, 'member', `member ${i}`))}
      {room.keep_outs.map(({ number, outline }) => shape(outline, 'keep-off', `keep-off ${number}`))}
      {room.fans.map(({ number, x_m, y_m, diameter_m }) => (
        <circle key={`fan ${number}`} class="keep-off" cx={x_m} cy={-y_m} r={diameter_m / 2} />
      ))}
      <polygon class="walls" points={walls.map((corner) => corner.join()).join(' ')} />
      {staying.map((place) => dot(place, 'trim staying', can / 2))}
      {cans.map((place) => dot(place, 'trim', can))}
    </svg>
  );
}
