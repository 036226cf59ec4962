// What the light of a room comes to, in a few figures and words.

import type { Light, Room } from '../engine/results';
import { lightText, roundedText, type Units } from './light_text';

/** A figure with its plain words. */
export function Fact({ name, plain, value }: { name: string; plain: string; value: string }) {
  return (
    <div>
      <dt>
        {name} <span class="soft">{plain}</span>
      </dt>
      <dd>{value}</dd>
    </div>
  );
}

interface FactsProps {
  readonly room: Room;
  readonly light: Light;
  readonly isRough: boolean;
}

/** The four figures that decide, in the unit of the job. */
export function Facts({ room, light, isRough }: FactsProps) {
  const { results, power } = light;
  return (
    <dl class={isRough ? 'facts rough' : 'facts'}>
      <Fact
        name="Average"
        plain={room.target ? `wanted ${room.target.text}` : 'of the plane'}
        value={lightText(results.average_lx, room.units, results.average_error_lx)}
      />
      <Fact name="Darkest" plain="point" value={lightText(results.minimum_lx, room.units)} />
      <Fact name="Evenness" plain="darkest / average" value={results.uniformity_minimum_over_average.toFixed(2)} />
      <Fact name="Power" plain="at full" value={`${roundedText(power.power_w)} W`} />
    </dl>
  );
}

/** The colours of the map and the light that they stand for. */
export function Legend({ steps, units }: { steps: Light['scale']; units: Units }) {
  const highest = Math.max(...steps.map((step) => step.lx));
  const stops = steps.map((step) => `${step.colour} ${((100 * step.lx) / highest).toFixed(2)}%`);
  return (
    <figure class="legend">
      <figcaption class="soft">Light on the work plane, {units === 'imperial' ? 'foot-candles' : 'lux'}</figcaption>
      <div class="legend-bar" style={{ background: `linear-gradient(to right, ${stops.join(', ')})` }} />
      <ol>
        {steps.map((step) => (
          <li key={step.lx} style={{ left: `${(100 * step.lx) / highest}%` }}>
            {parseFloat(lightText(step.lx, units)) /* round as ticks are: 5, not 5.00 */}
          </li>
        ))}
      </ol>
    </figure>
  );
}
