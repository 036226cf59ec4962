// Runs in a worker: the whole program `evenlit`, with its files in memory.

import evenlit from 'evenlit-program';
import type { Command, Done, Files, FromEngine, ToEngine } from './messages';

/** Bytes of one of the program's output streams, cut into lines. Progress rewrites its line, so it ends in "\r" too. */
class Stream {
  private bytes: number[] = [];
  private shown = 0;

  constructor(private readonly onLine: (line: string) => void = () => {}) {}

  put(byte: number | null): void {
    if (byte === null) return;
    this.bytes.push(byte);
    if (byte !== 10 && byte !== 13 && byte !== 37) return;
    this.onLine(decode(this.bytes.slice(this.shown)));
    this.shown = this.bytes.length;
  }

  take(): string {
    const text = decode(this.bytes);
    this.bytes = [];
    this.shown = 0;
    return text;
  }
}

const decode = (bytes: number[]): string => new TextDecoder().decode(new Uint8Array(bytes));

/** What a terminal shows of it: lines of progress wiped away. */
const printed = (text: string): string => text.replace(/^.*\r(?:\u001b\[K)?/gm, '');

const k_home = '/home/job';
const k_error_stream = 2;

let program: Program | undefined;
let running = 0;
const output = new Stream();
const errors = new Stream((line) => {
  const text = line.replace(/[\r\n]|\u001b\[K/g, '').trim();
  if (line.endsWith('%')) say({ kind: 'progress', id: running, text });
});

const say = (message: FromEngine, moved: Transferable[] = []): void => postMessage(message, { transfer: moved });

async function start(module: WebAssembly.Module): Promise<void> {
  program = await evenlit({
    instantiateWasm(imports, ready) {
      void WebAssembly.instantiate(module, imports).then((instance) => ready(instance, module));
      return {};
    },
    preRun: [
      ({ FS }) => {
        FS.init(
          () => null,
          (byte) => output.put(byte),
          (byte) => errors.put(byte),
        );
        FS.streams[k_error_stream]!.tty = true; // where nobody looks on, the program tells no progress
      },
    ],
  });
  program.FS.mkdirTree(k_home);
  program.FS.chdir(k_home);
  say({ kind: 'started' });
}

/** Where a file is that a job in `k_home` names: `../photometry/can #2.ies`. */
function absolute(name: string): string {
  const inAddress = name.split('/').map(encodeURIComponent).join('/');
  return decodeURIComponent(new URL(inAddress, `file://${k_home}/`).pathname);
}

function write(FS: ProgramFiles, files: Files): void {
  for (const [name, data] of Object.entries(files)) {
    const path = absolute(name);
    FS.mkdirTree(path.slice(0, path.lastIndexOf('/')));
    FS.writeFile(path, data);
  }
}

/** A run finds no files of another one. */
function remove(FS: ProgramFiles, names: readonly string[]): void {
  for (const path of new Set(names.map(absolute))) {
    if (FS.analyzePath(path).exists) FS.unlink(path);
  }
}

function ran({ FS, callMain, stackSave, stackRestore }: Program, command: Command): Done {
  const stack = stackSave(); // on which `callMain` leaves its words
  const status = callMain([...command.words]);
  stackRestore(stack);
  const text = output.take();
  const problems = printed(errors.take());
  const files: Record<string, Uint8Array> = {};
  for (const name of command.wanted) {
    if (status === 0 && FS.analyzePath(name).exists) files[name] = FS.readFile(name);
  }
  return { status, text, problems, files };
}

function run(id: number, files: Files, commands: readonly Command[]): void {
  if (!program) return;
  running = id;
  write(program.FS, files);
  const steps: Done[] = [];
  for (const command of commands) {
    const done = ran(program, command);
    steps.push(done);
    if (done.status !== 0) break;
  }
  remove(program.FS, [...Object.keys(files), ...commands.flatMap((command) => command.wanted)]);
  const moved = steps.flatMap((step) => Object.values(step.files).map((bytes) => bytes.buffer as ArrayBuffer));
  say({ kind: 'done', id, steps }, [...new Set(moved)]);
}

onmessage = async ({ data }: MessageEvent<ToEngine>) => {
  try {
    if (data.kind === 'start') await start(data.module);
    else run(data.id, data.files, data.commands);
  } catch (error) {
    say({ kind: 'broken', id: running, why: String(error) });
  }
};
