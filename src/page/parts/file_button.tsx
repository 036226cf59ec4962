interface FileButtonProps {
  readonly label: string;
  /** Endings of names, as `.toml,.ies`. */
  readonly accept: string;
  readonly multiple?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}

/** A file field that looks like a button. */
export function FileButton({ label, accept, multiple = false, onFiles }: FileButtonProps) {
  return (
    <label class="file-button">
      {label}
      <input
        type="file"
        accept={accept}
        multiple={multiple}
        onChange={({ currentTarget }) => {
          onFiles([...(currentTarget.files ?? [])]);
          currentTarget.value = ''; // so that the same file can be chosen again
        }}
      />
    </label>
  );
}
