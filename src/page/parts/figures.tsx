import type { ComponentChildren } from 'preact';
import type { Layout, Room, Want } from '../engine/results';
import { lightText, moneyText, roundedText } from './light_text';

type Units = Room['units'];

/** What is wanted and what there is: "average 18.2 fc of 20.0 fc". */
function wantText(want: Want, units: Units, currency: string): string {
  const light = (name: string): string =>
    `${name} ${lightText(want.has, units, want.has_error)} of ${lightText(want.wanted, units)}`;
  switch (want.of) {
    case 'average_lx':
      return light('average');
    case 'minimum_lx':
      return light('darkest');
    case 'task_area_average_lx':
      return light(want.task_area ?? 'task area');
    case 'uniformity_minimum_over_average':
      return `evenness ${want.has.toFixed(2)} of ${want.wanted.toFixed(2)}`;
    case 'power_w':
      return `${roundedText(want.has)} W, ${roundedText(want.wanted)} W at most`;
    case 'cost':
      return `${moneyText(want.has, currency)}, ${moneyText(want.wanted, currency)} at most`;
  }
}

function Figure({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

interface OfLayout {
  readonly layout: Layout;
  readonly units: Units;
  readonly currency: string;
}

/**
 * The figures of a layout.
 *
 * @param staying how many more cans the job has, which are in all of them
 */
export function LayoutFigures({ layout, units, currency, staying }: OfLayout & { staying: number }) {
  return (
    <dl class="figures">
      <Figure name="Cans">{staying === 0 ? layout.cans : `${layout.cans} and ${staying} that stay`}</Figure>
      <Figure name="Average">{lightText(layout.average_lx, units, layout.average_error_lx)}</Figure>
      <Figure name="Darkest">{lightText(layout.minimum_lx, units, layout.minimum_error_lx)}</Figure>
      <Figure name="Evenness (darkest over average)">{layout.uniformity_minimum_over_average.toFixed(2)}</Figure>
      {layout.power_w !== null && <Figure name="Power">{roundedText(layout.power_w)} W</Figure>}
      {layout.cost !== null && <Figure name="Price of the cans">{moneyText(layout.cost, currency)}</Figure>}
      {layout.misfits !== null && (
        <Figure name="Holes that hit something">{layout.misfits === 0 ? 'none' : layout.misfits}</Figure>
      )}
    </dl>
  );
}

/** Whether a layout gives what is wanted, and what is not given. */
export function Wants({ layout, units, currency }: OfLayout) {
  if (layout.wants.length === 0) return <p class="soft">The job wants no certain light: no target is set.</p>;
  if (layout.gives_all_wanted) return <p class="gives">✓ Gives all that is wanted</p>;
  const missed = layout.wants.filter((want) => !want.is_met).map((want) => wantText(want, units, currency));
  return <p class="lacks">✗ Falls short: {missed.join('; ')}</p>;
}
