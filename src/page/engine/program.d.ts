// The program that emscripten makes of evenlit, as far as the worker uses it.

interface ProgramFiles {
  readonly streams: { tty: unknown }[];
  init(input: () => number | null, output: (byte: number | null) => void, error: (byte: number | null) => void): void;
  mkdirTree(path: string): void;
  chdir(path: string): void;
  writeFile(path: string, data: Uint8Array | string): void;
  readFile(path: string): Uint8Array;
  unlink(path: string): void;
  analyzePath(path: string): { exists: boolean };
}

interface Program {
  readonly FS: ProgramFiles;
  callMain(words: readonly string[]): number;
  stackSave(): number;
  stackRestore(stack: number): void;
}

interface ProgramOptions {
  instantiateWasm(
    imports: WebAssembly.Imports,
    ready: (instance: WebAssembly.Instance, module: WebAssembly.Module) => void,
  ): object;
  preRun: ((program: Program) => void)[];
}

declare module 'evenlit-program' {
  export default function evenlit(options: ProgramOptions): Promise<Program>;
}

/** The worker's script as text: the bundler puts it there. */
declare module 'worker-script' {
  const text: string;
  export default text;
}
