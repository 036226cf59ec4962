// The room as it will look: turned, walked through, dimmed.

import { computed, signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { room } from '../job/job_desk';
import { useBlobAddress } from '../parts/blob_address';
import { EngineSays } from '../parts/engine_says';
import { Icon, type IconName } from '../parts/icon';
import { Compare, ShownChoice } from './see_compare';
import { Dimming } from './see_dimming';
import { eyeOf } from './see_eye';
import { Figures, figuresText, results, useFigures } from './see_figures';
import { isAsInJob } from './see_light';
import type { RoomModel } from './see_model';
import { k_hands, Picture, WalkPad } from './see_picture';
import {
  alternatives,
  isPictureToBeBegun,
  isStale,
  isToBeBegun,
  picture,
  problem,
  renew,
  renewPicture,
  running,
  type Seen,
  seen,
  stop,
} from './see_runs';
import { eye, isSideBySide, lighting, look, shown } from './see_state';
import { wallAhead } from './see_walk';
import { Wishes } from './see_wishes';

/** The model that this device could not draw, and why: another one is tried again. */
const failed = signal<{ readonly model: RoomModel; readonly why: string } | null>(null);
const cannotDraw = computed(() => (failed.value && failed.value.model === shown.value?.model ? failed.value.why : ''));

const renewShown = (): void => void (cannotDraw.value ? renewPicture() : renew());

/** Computes what is not computed yet. What failed or was stopped waits until somebody asks. */
function useModel(): void {
  const begins = isToBeBegun.value;
  useEffect(() => {
    if (begins) void renew();
  }, [begins]);
}

/** From where it looks and how light it is, in words. */
function lookText(of: Seen): string {
  const now = eye.value;
  if (!now || !room.value) return 'The room';
  const wall = wallAhead(now.eye, room.value.room.corners);
  const name = alternatives.value.find((each) => each === of)?.label ?? 'The room';
  const view = of.model.views.find((each) => each.name === now.from);
  const isAtView = view?.eye_m.every((m, i) => m === now.eye.place_m[i]) ?? false;
  const place = isAtView ? `seen ${now.from}` : `seen on a walk that began ${now.from}`;
  const light = results.value && of === shown.value ? `; ${figuresText(results.value, room.value.units)}` : '';
  return `${name}, ${place}, looking toward the ${wall} wall${light}.`;
}

const k_hand_buttons: readonly { hand: keyof typeof k_hands; icon: IconName; label: string }[] = [
  { hand: 'left', icon: 'left', label: 'Turn left' },
  { hand: 'right', icon: 'right', label: 'Turn right' },
  { hand: 'up', icon: 'up', label: 'Look up' },
  { hand: 'down', icon: 'down', label: 'Look down' },
  { hand: 'closer', icon: 'closer', label: 'See less, larger' },
  { hand: 'wider', icon: 'wider', label: 'See more of the room' },
];

function Hands() {
  return (
    <div class="see-hands" role="group" aria-label="Look around">
      {k_hand_buttons.map(({ hand, icon, label }) => (
        <button key={hand} type="button" aria-label={label} title={label} onClick={k_hands[hand]}>
          <Icon name={icon} />
        </button>
      ))}
    </div>
  );
}

function Views({ of }: { of: Seen }) {
  const { views } = of.model;
  return (
    <div class="chips" role="group" aria-label="Views of the job">
      {views.map((view) => (
        <button key={view.name} type="button" onClick={() => look(eyeOf(view), view.name)}>
          {view.name}
        </button>
      ))}
    </div>
  );
}

function Pictures({ of }: { of: Seen }) {
  const now = seen.value;
  const other = alternatives.value.find((each) => each === of) ?? alternatives.value[0];
  const isPair = isSideBySide.value && now !== null && other !== undefined;
  const captioned = (each: Seen, caption: string) => (
    <figure key={caption || 'alone'}>
      <Picture seen={each} label={lookText(each)} onCannotDraw={(model, why) => (failed.value = { model, why })} />
      {caption && <figcaption>{caption}</figcaption>}
    </figure>
  );
  return (
    <div class={isPair ? 'see-pictures pair' : 'see-pictures'}>
      {isPair ? [captioned(now, 'As it is now'), captioned(other, other.label)] : captioned(of, '')}
      <WalkPad />
    </div>
  );
}

/** The engine's own picture, where the device cannot draw. */
function StillPicture() {
  const address = useBlobAddress(picture.value);
  const begins = isPictureToBeBegun.value;
  useEffect(() => {
    if (begins) void renewPicture();
  }, [begins]);
  return (
    <div class="see-pictures">
      <p class="soft">
        {cannotDraw.value} The picture below is the engine’s own, from the first view, with the light as in the job.
      </p>
      {address && <img src={address} alt="The room as it will look, from the job’s first view" />}
    </div>
  );
}

/** What is computed, or is to be. */
function Progress() {
  const isOld = cannotDraw.value === '' && isStale.value;
  return (
    <div class="see-progress">
      <p role="status">
        {isOld && 'The job has changed: the picture shows it as it was. '}
        {running.value && `${running.value} …`}
      </p>
      {running.value ? (
        <button type="button" onClick={stop}>
          Stop
        </button>
      ) : (
        (isOld || !seen.value || problem.value) && (
          <button type="button" class="main" onClick={renewShown}>
            {seen.value ? 'Compute again' : 'Compute the picture'}
          </button>
        )
      )}
    </div>
  );
}

export function See() {
  useModel();
  useFigures();
  const now = shown.value;
  return (
    <div class="see">
      {cannotDraw.value ? (
        <StillPicture />
      ) : now ? (
        <Pictures of={now} />
      ) : (
        <p class="see-waiting soft">The picture of the room comes here.</p>
      )}
      <div class="see-side">
        <Progress />
        <EngineSays text={problem.value} />
        {now && (
          <>
            <Figures />
            <p class="soft see-note">
              {isAsInJob(lighting.value)
                ? 'Light as in the job.'
                : 'Light as set below; the job keeps its own until you save a mood.'}
            </p>
            <ShownChoice />
            {!cannotDraw.value && (
              <>
                <Views of={now} />
                <Hands />
                <details class="see-keys">
                  <summary>How to look and walk around</summary>
                  <p id="see-keys" class="soft see-note">
                    Drag to turn. Pinch, or roll the wheel, to see more or less. Hold the round pad to walk the way that
                    you hold it. Keys on the picture: W, S and the arrows up and down walk, A and D step aside, the
                    arrows left and right turn, Page Up and Page Down look up and down, + and − change the angle of
                    view.
                  </p>
                </details>
              </>
            )}
            <Dimming />
            <Wishes />
            <Compare />
            <p class="soft see-note">
              A screen cannot be as bright as a lamp: bright cans dazzle more in the room than they do here. Dimmers and
              cans must suit each other; licensed practice and the local code come first.
            </p>
          </>
        )}
      </div>
    </div>
  );
}
