// Figures as the command line prints them: three digits, none finer than their error.

import type { Room } from '../engine/results';

export type Units = Room['units'];

/** Exact by the definition of the foot. */
const k_lx_per_footcandle = 1 / 0.3048 ** 2;

/** @param error of the value, in its unit; 0: none is known */
export function roundedText(value: number, error = 0): string {
  if (value === 0) return '0';
  const finest = error > 0 ? Math.floor(Math.log10(error)) : -9;
  const digit = Math.max(Math.floor(Math.log10(Math.abs(value))) - 2, finest);
  const lastDigit = Math.round(Math.abs(value) / 10 ** digit) >= 1000 ? digit + 1 : digit; // rounded up: 9.996
  if (lastDigit <= 0) return value.toFixed(-lastDigit);
  return String(Math.round(value / 10 ** lastDigit) * 10 ** lastDigit);
}

/** Light in the unit that a job prints first. */
export function lightText(lx: number, units: Units, error_lx = 0): string {
  if (units === 'metric') return `${roundedText(lx, error_lx)} lx`;
  return `${roundedText(lx / k_lx_per_footcandle, error_lx / k_lx_per_footcandle)} fc`;
}

/** A bound: one digit, rounded up. */
export function errorText(error_lx: number, units: Units): string {
  if (error_lx <= 0) return lightText(0, units);
  const unit_lx = units === 'metric' ? 1 : k_lx_per_footcandle;
  const step = 10 ** Math.floor(Math.log10(error_lx / unit_lx));
  const bound = step * Math.ceil(error_lx / unit_lx / step);
  return lightText(bound * unit_lx, units, bound * unit_lx);
}

/** A fraction in percent, tenths only of what is little. */
export function percentText(fraction: number): string {
  const percent = 100 * fraction;
  return `${percent.toFixed(percent > 0 && percent < 9.95 ? 1 : 0)} %`;
}

/** An amount of money, cents only where there are any. */
export function moneyText(amount: number, currency: string): string {
  const cents = Math.round(100 * amount);
  return currency + (cents / 100).toFixed(cents % 100 === 0 ? 0 : 2);
}
