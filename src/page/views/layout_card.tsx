import { useState } from 'preact/hooks';
import { EngineSays } from '../parts/engine_says';
import { LayoutFigures, Wants } from '../parts/figures';
import { SmallPlan } from '../parts/small_plan';
import type { Card } from './choose_runs';

interface LayoutCardProps {
  readonly card: Card;
  /** What it is called, and its heading. */
  readonly name: string;
  readonly title: string;
  readonly isInJob: boolean;
  /** null: it is not offered. */
  readonly onUse: (() => Promise<string>) | null;
}

/** A layout to choose: its map, what it gives, what it takes. */
export function LayoutCard({ card, name, title, isInJob, onUse }: LayoutCardProps) {
  const [refusal, setRefusal] = useState('');
  const { layout, room, staying, mark, reason, floor } = card;
  const wrong = refusal || card.refusal;
  const given = { layout, units: room.units, currency: room.currency };
  return (
    <li class={mark ? 'card marked' : 'card'}>
      <h3>{title}</h3>
      {mark && <p class="mark">★ {mark}</p>}
      {reason && <p class="soft">{reason}</p>}
      <SmallPlan
        room={room}
        cans={layout.positions}
        staying={staying}
        floor={floor}
        label={`Plan of the light: ${name}, ${layout.cans} cans`}
      />
      <Wants {...given} />
      <LayoutFigures {...given} staying={staying.length} />
      <EngineSays text={wrong} />
      {isInJob && <p class="now">✓ In the job now</p>}
      {onUse && (
        <button
          type="button"
          aria-label={`Use this: ${name}, ${layout.cans} cans`}
          onClick={() => void onUse().then(setRefusal)}
        >
          Use this
        </button>
      )}
    </li>
  );
}
