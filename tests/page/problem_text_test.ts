import assert from 'node:assert/strict';
import { test } from 'node:test';
import { problemsByField } from '../../src/page/parts/field_problems';
import { fieldWords } from '../../src/page/parts/field_words';
import { errorText } from '../../src/page/parts/light_text';
import { problemText } from '../../src/page/parts/problem_text';

// As `evenlit change` prints it.
const k_said = `job.toml, changed:243:8: the can's centre is 83' 0" outside the room
  243 | from = { west = "99 ft", north = "3ft 6in" }
      |        ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
hint: each distance is square to its wall, from the wall into the room
`;

test('beside a field stands what is wrong and what to write, not where in the file', () => {
  assert.equal(
    problemText(k_said),
    `The can's centre is 83' 0" outside the room. Each distance is square to its wall, from the wall into the room`,
  );
  assert.equal(problemText(''), '');
});

test('an error is told in one digit, never less than it is', () => {
  assert.equal(errorText(0.336, 'metric'), '0.4 lx');
  assert.equal(errorText(0.336, 'imperial'), '0.04 fc');
  assert.equal(errorText(0.95, 'metric'), '1 lx');
  assert.equal(errorText(23, 'metric'), '30 lx');
  assert.equal(errorText(0, 'imperial'), '0 fc');
});

test('who sees a field and no file reads nothing of keys, tables, quotes and file names', () => {
  // As `evenlit change` prints them.
  const said = [
    `job.toml, changed: the job has no cans\nhint: add a table [[cans]] with type = "six_inch"\n`,
    `job.toml, changed:3:1: [room] has no ceiling\n    3 | [room]\n      | ^~~~~~\nhint: add a line like ceiling = "8ft"\n`,
    `job.toml, changed:2:10: target "30" has no unit\nhint: write lux like 300 lx, or foot-candles like 30 fc\n`,
  ];
  assert.deepEqual(said.map(fieldWords), [
    'The job has no cans',
    'The room has no ceiling',
    'Target "30" has no unit. Write lux like 300 lx, or foot-candles like 30 fc',
  ]);
});

test('what is wrong stands beside the field whose entry it quotes, and what is of none stands apart', () => {
  const said = `job.toml:6:9: room width "14" has no unit
    6 | width = "14"
      |         ^~~~
hint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m
job.toml:8:11: ceiling height "high" is not a length
hint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m
job.toml:9:1: two walls cross
`;
  assert.deepEqual(problemsByField(said, { width: '14', depth: '12ft', ceiling: 'high' }), {
    beside: {
      width: 'Room width "14" has no unit. Write feet and inches like 12ft 6-3/8in, or metres like 3.81 m',
      ceiling: 'Ceiling height "high" is not a length. Write feet and inches like 12ft 6-3/8in, or metres like 3.81 m',
    },
    rest: 'Two walls cross',
  });
});
