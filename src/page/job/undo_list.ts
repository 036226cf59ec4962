/** The texts that a job had, the present one among them. A value: every change makes a new one. */
export interface UndoList {
  readonly texts: readonly string[];
  readonly at: number;
}

const k_most_texts = 200;

export const begun = (text: string): UndoList => ({ texts: [text], at: 0 });

export const present = (list: UndoList): string => list.texts[list.at] ?? '';

/** What was undone is given up. */
export function followedBy(list: UndoList, text: string): UndoList {
  if (text === present(list)) return list;
  const texts = [...list.texts.slice(0, list.at + 1), text].slice(-k_most_texts);
  return { texts, at: texts.length - 1 };
}

export const canUndo = (list: UndoList): boolean => list.at > 0;
export const canRedo = (list: UndoList): boolean => list.at + 1 < list.texts.length;
export const undone = (list: UndoList): UndoList => (canUndo(list) ? { ...list, at: list.at - 1 } : list);
export const redone = (list: UndoList): UndoList => (canRedo(list) ? { ...list, at: list.at + 1 } : list);
