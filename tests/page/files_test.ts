import assert from 'node:assert/strict';
import { test } from 'node:test';
import { found, missingFiles, rest } from '../../src/page/job/missing_files';
import { rowsOfCommas } from '../../src/page/parts/comma_table';

const k_problems = `job.toml:38:8: "../photometry/six inch.ies" cannot be read: No such file or directory
   38 | file = "../photometry/six inch.ies"
      |        ^~~~~~~~~~~~~~~
hint: check the name; it counts from the folder of job.toml
job.toml:44:8: "can.ldt" cannot be read: No such file or directory
`;

test('the files that a job misses are read from what the engine says', () => {
  assert.deepEqual(missingFiles(k_problems), ['../photometry/six inch.ies', 'can.ldt']);
  assert.deepEqual(missingFiles('job.toml:3:1: unknown key "cannot be read: x"'), []);
});

test('files are matched by their base names', () => {
  const [six, other] = [new Uint8Array([1]), new Uint8Array([2])];
  const files = { 'six inch.ies': six, 'other.ies': other };
  const taken = found(missingFiles(k_problems), files);
  assert.deepEqual(taken, { '../photometry/six inch.ies': six });
  assert.deepEqual(rest(files, taken), { 'other.ies': other });
});

test('comma-separated values with quotes, empty cells and either line end', () => {
  assert.deepEqual(rowsOfCommas('job,item,cost\r\n"a","can ""six"", white",\nb,,3'), [
    ['job', 'item', 'cost'],
    ['a', 'can "six", white', ''],
    ['b', '', '3'],
  ]);
  assert.deepEqual(rowsOfCommas(''), []);
});
