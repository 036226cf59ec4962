import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shortened, stepped, withFraction, withUnit } from '../../src/page/parts/tape_keys';

test('keys write feet, inches and a fraction one after the other', () => {
  const feet = withUnit('12', 'ft');
  assert.equal(withFraction(`${feet}6`, '3/8'), '12ft 6-3/8in');
  assert.equal(withFraction(feet, '1/2'), '12ft 1/2in');
  assert.equal(withFraction('', '7/8'), '7/8in');
  assert.equal(withUnit('381', 'cm'), '381cm');
});

test('a fraction takes the place of the one that is there', () => {
  assert.equal(withFraction('12ft 6-3/8in', '5/8'), '12ft 6-5/8in');
  assert.equal(withFraction('6 3/8"', '5/8'), '6-5/8in');
  assert.equal(withFraction('12ft 6in', '1/8'), '12ft 6-1/8in');
});

test('a unit without a number is not written', () => {
  assert.equal(withUnit('', 'ft'), '');
  assert.equal(withUnit('12ft ', 'in'), '12ft ');
});

test('sixteenths carry into inches and feet', () => {
  assert.equal(stepped('6-3/8in', 1), '6-7/16in');
  assert.equal(stepped('6-15/16in', 1), '7in');
  assert.equal(stepped('11-15/16 in', 1), '1ft');
  assert.equal(stepped('2ft', -1), '1ft 11-15/16in');
  assert.equal(stepped('2ft 1/16in', -1), '2ft');
  assert.equal(stepped("12' 6 3/8\"", 1), '12ft 6-7/16in');
  assert.equal(stepped('0in', -1), '0in');
});

test('a step there and back leaves every sixteenth of three feet', () => {
  for (let count = 1; count < 36 * 16; ++count) {
    const text = stepped('0in', count);
    assert.equal(stepped(stepped(text, 1), -1), text);
    assert.equal(stepped(stepped(text, -1), 1), text);
  }
});

test('what is not in feet and inches has no sixteenths', () => {
  for (const text of ['3.81 m', '', '12ft 6-1/3in', 'abc']) assert.equal(stepped(text, 1), text);
});

test('deleting takes a unit or a fraction whole', () => {
  assert.equal(shortened('12ft 6-3/8in'), '12ft 6-3/8');
  assert.equal(shortened('12ft 6-3/8'), '12ft 6');
  assert.equal(shortened('12ft '), '12');
  assert.equal(shortened('381 cm'), '381');
  assert.equal(shortened('12'), '1');
  assert.equal(shortened(''), '');
});
