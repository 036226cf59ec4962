import { k_photometric, missingFiles, takeMissing } from '../job/incoming_files';
import { problem } from '../job/job_desk';
import { FileButton } from './file_button';

/** A button for each file that the job names and that is not there. */
export function MissingFiles() {
  return (
    <>
      {missingFiles(problem.value).map((path) => (
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
