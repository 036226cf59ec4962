interface ChoiceProps<T extends string> {
  readonly legend: string;
  readonly choices: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly onChoose: (choice: T) => void;
}

/** A few words of which one holds. */
export function Choice<T extends string>({ legend, choices, chosen, onChoose }: ChoiceProps<T>) {
  return (
    <fieldset class="chips">
      <legend>{legend}</legend>
      {(Object.keys(choices) as T[]).map((choice) => (
        <button key={choice} type="button" aria-pressed={choice === chosen} onClick={() => onChoose(choice)}>
          {choice === chosen && <span aria-hidden="true">✓ </span>}
          {choices[choice]}
        </button>
      ))}
    </fieldset>
  );
}
