// Light and other figures as the program writes them at a terminal.

import type { Room } from '../engine/results';

export type Units = Room['units'];

/** Exact by the definition of the foot. */
const k_lux_per_footcandle = 1 / 0.3048 ** 2;

/** Three significant digits, and none finer than the leading digit of the error. */
export function figureText(value: number, error = 0): string {
  if (value === 0) return '0';
  const finest = error > 0 ? Math.floor(Math.log10(error)) : -9;
  let lastDigit = Math.max(Math.floor(Math.log10(Math.abs(value))) - 2, finest, -9);
  if (Math.round(Math.abs(value) / 10 ** lastDigit) >= 1000) lastDigit += 1; // rounded up to a digit more: 9.996
  if (lastDigit <= 0) return value.toFixed(-lastDigit);
  return String(Math.round(value / 10 ** lastDigit) * 10 ** lastDigit);
}

interface Unit {
  readonly lx: number;
  readonly name: string;
}

const unitOf = (units: Units): Unit =>
  units === 'imperial' ? { lx: k_lux_per_footcandle, name: 'fc' } : { lx: 1, name: 'lx' };

/** Light in the unit of the job: foot-candles or lux. */
export function lightText(lx: number, units: Units, error_lx = 0): string {
  const unit = unitOf(units);
  return `${figureText(lx / unit.lx, error_lx / unit.lx)} ${unit.name}`;
}

/** An error bound: one digit, rounded up. */
export function errorText(error_lx: number, units: Units): string {
  const unit = unitOf(units);
  if (error_lx <= 0) return `0 ${unit.name}`;
  const step = 10 ** Math.floor(Math.log10(error_lx / unit.lx));
  return `${figureText(step * Math.ceil(error_lx / unit.lx / step), step)} ${unit.name}`;
}
