import { Panel } from '../parts/panel';

export function JobMenu({ onClose }: { onClose: () => void }) {
  return (
    <Panel title="Job" onClose={onClose}>
      <p>Job</p>
    </Panel>
  );
}
