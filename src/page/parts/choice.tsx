import { Chip } from './chip';

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
        <Chip key={choice} isPressed={choice === chosen} onPress={() => onChoose(choice)}>
          {choices[choice]}
        </Chip>
      ))}
    </fieldset>
  );
}
