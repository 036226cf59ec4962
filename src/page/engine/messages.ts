// All that the page and the worker with the engine say to each other.

/** One command, as it is typed at a terminal: `["light", "room.toml", "--json", "light.json"]`. */
export interface Command {
  readonly words: readonly string[];
  /** Files that it writes and the page wants to have; later commands of the run find them. A step that fails has none. */
  readonly wanted: readonly string[];
}

/** Files by the path that commands know them by. */
export type Files = Readonly<Record<string, Uint8Array | string>>;

export type ToEngine =
  /** First of all. `module` is the compiled program. */
  | { readonly kind: 'start'; readonly module: WebAssembly.Module }
  /** Write the files, then run the commands one after another until one fails. */
  | { readonly kind: 'run'; readonly id: number; readonly files: Files; readonly commands: readonly Command[] };

/** What a command did. */
export interface Done {
  /** 0: done; 1: a file could not be written; 2: the input is wrong, nothing was written. */
  readonly status: number;
  /** What it says: results. */
  readonly text: string;
  /** What it says is wrong, and what to write instead. */
  readonly problems: string;
  readonly files: Readonly<Record<string, Uint8Array>>;
}

export type FromEngine =
  | { readonly kind: 'started' }
  /** How far a command that takes its time has come. */
  | { readonly kind: 'progress'; readonly id: number; readonly text: string }
  /** One for each command that ran. */
  | { readonly kind: 'done'; readonly id: number; readonly steps: readonly Done[] }
  /** The engine broke down and takes no more commands. */
  | { readonly kind: 'broken'; readonly id: number; readonly why: string };
