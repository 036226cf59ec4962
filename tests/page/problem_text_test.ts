import assert from 'node:assert/strict';
import { test } from 'node:test';
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
