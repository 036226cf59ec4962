// Keys for lengths as a tape reads them. They only write: what the text means, the engine says.

import { useEffect, useRef } from 'preact/hooks';
import { Icon } from './icon';
import type { Units } from './light_text';

const k_eighths = ['1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'] as const;
const k_sixteenths_per_inch = 16;
const k_inches_per_foot = 12;

/** Feet, inches and a fraction, any of them left out: what sixteenths can be counted in. */
const k_feet_and_inches =
  /^(?:(?<feet>\d+) ?(?:ft|'))? ?(?:(?<inches>\d+)(?:[- ](?<over>\d+)\/(?<under>\d+))?|(?<part>\d+)\/(?<of>\d+))? ?(?:in|")?$/;

function sixteenths(text: string): number | null {
  const found = k_feet_and_inches.exec(text.trim())?.groups;
  if (!found || text.trim() === '') return null;
  const { feet = 0, inches = 0, over = found.part ?? 0, under = found.of ?? 1 } = found;
  const fraction = (k_sixteenths_per_inch * Number(over)) / Number(under);
  const whole = k_sixteenths_per_inch * (k_inches_per_foot * Number(feet) + Number(inches));
  return Number.isInteger(fraction) ? whole + fraction : null;
}

function reduced(over: number, under: number): string {
  return over % 2 === 0 ? reduced(over / 2, under / 2) : `${over}/${under}`;
}

function feetAndInches(count: number): string {
  const inches = Math.floor(count / k_sixteenths_per_inch);
  const feet = Math.floor(inches / k_inches_per_foot);
  const rest = inches % k_inches_per_foot;
  const over = count % k_sixteenths_per_inch;
  const fraction = over === 0 ? '' : `${rest === 0 ? '' : '-'}${reduced(over, k_sixteenths_per_inch)}`;
  const inchText = rest === 0 && fraction !== '' ? fraction : `${rest}${fraction}`;
  if (feet === 0) return `${inchText}in`;
  return rest === 0 && fraction === '' ? `${feet}ft` : `${feet}ft ${inchText}in`;
}

/** One sixteenth of an inch more or less; the same text where it is not in feet and inches. */
export function stepped(text: string, steps: number): string {
  const count = sixteenths(text);
  return count === null ? text : feetAndInches(Math.max(0, count + steps));
}

/** A fraction in the place of the one that is there. */
export function withFraction(text: string, fraction: string): string {
  const before = text.replace(/[- ]?\d+\/\d+ ?(?:in|")?$/, '').replace(/ ?(?:in|")$/, '');
  return `${before}${/\d$/.test(before) ? '-' : ''}${fraction}in`;
}

/** A unit behind the last number; feet leave room for inches. */
export function withUnit(text: string, unit: string): string {
  if (!/\d$/.test(text)) return text;
  return unit === 'ft' ? `${text}ft ` : `${text}${unit}`;
}

/** The last digit or the last unit is gone. */
export const shortened = (text: string): string => text.replace(/(?: *(?:ft|in|mm|cm|m|'|") *|[- ]?\d+\/\d+|.)$/, '');

interface KeysProps {
  readonly units: Units;
  readonly text: string;
  /** The text is as the job has it: a digit begins anew. */
  readonly isUntouched: boolean;
  readonly onType: (text: string) => void;
}

interface KeyProps {
  readonly face: string;
  readonly name?: string;
  readonly onPress: () => void;
}

function Key({ face, name, onPress }: KeyProps) {
  return (
    <button
      type="button"
      aria-label={name}
      onPointerDown={(event) => event.preventDefault() /* the field keeps the focus */}
      onClick={onPress}
    >
      {face}
    </button>
  );
}

export function TapeKeys({ units, text, isUntouched, onType }: KeysProps) {
  const digit = (face: string) => <Key face={face} onPress={() => onType(isUntouched ? face : text + face)} />;
  const unit = (name: string) => <Key face={name} onPress={() => onType(withUnit(text, name))} />;
  const step = (face: string, name: string, steps: number) => (
    <Key face={face} name={name} onPress={() => onType(stepped(text, steps))} />
  );
  const isImperial = units === 'imperial';
  const keys = useRef<HTMLDivElement>(null);
  useEffect(() => keys.current?.scrollIntoView({ block: 'nearest' }), []);
  return (
    <div class="tape-keys" ref={keys} role="group" aria-label="Keys for lengths">
      <div class="tape-digits">
        {['7', '8', '9'].map(digit)}
        {unit(isImperial ? 'ft' : 'm')}
        <button
          type="button"
          aria-label="Delete the last"
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => onType(shortened(text))}
        >
          <Icon name="erase" />
        </button>
        {['4', '5', '6'].map(digit)}
        {unit(isImperial ? 'in' : 'cm')}
        {isImperial ? step('+1/16', '1/16 inch more', 1) : <Key face="." onPress={() => onType(`${text}.`)} />}
        {['1', '2', '3'].map(digit)}
        {digit('0')}
        {isImperial ? step('−1/16', '1/16 inch less', -1) : unit('mm')}
      </div>
      {isImperial && (
        <div class="tape-fractions">
          {k_eighths.map((fraction) => (
            <Key key={fraction} face={fraction} onPress={() => onType(withFraction(isUntouched ? '' : text, fraction))} />
          ))}
        </div>
      )}
    </div>
  );
}
