import { k_photometric, takeMissing } from '../job/incoming_files';
import { problem } from '../job/job_desk';
import { missingFiles } from '../job/missing_files';
import { FileButton } from './file_button';

/** A button for each file that the job names and that is not there. */
export function MissingFiles() {
  const missing = missingFiles(problem.value);
  if (missing.length === 0) return null;
  return (
    <>
      <p>The job names photometric files that are not here:</p>
      {missing.map((path) => (
        <FileButton
          key={path}
          label={`Add this file: ${path}`}
          accept={k_photometric}
          onFiles={([file]) => {
            if (file) void takeMissing(path, file);
          }}
        />
      ))}
    </>
  );
}
