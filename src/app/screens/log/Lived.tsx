import { isInside80, type LivedDay } from "../../../records/map/lived.js";
import { Fitted } from "../../parts/Fitted.js";
import { Say } from "../../parts/Say.js";
import { dayAndMonth, figures, leftToRight, plain, signed } from "../../words/format.js";
import { logWords } from "../../words/log.js";

/** Days drawn: more would be thinner than a finger sees. */
const DRAWN = 14;
const HEIGHT = 150;
const FOOT = 22;
/** Above the highest of the days. */
const ROOM_SHARE = 0.04;

/** The last days, each a bar from the low to the high guess with the likely one across it, and a dot for what was lived. */
export function LivedPicture({ days }: { days: readonly LivedDay[] }) {
  const told = logWords.now();
  const shown = days.slice(-DRAWN);
  if (shown.length === 0) return null;
  const line = shown.at(-1)?.said.reserveShare ?? 0;
  const most = Math.max(line, ...shown.flatMap(({ said, homeShare }) => [homeShare, ...said.home])) + ROOM_SHARE;
  const y = (share: number) => 4 + (HEIGHT - FOOT - 8) * (1 - Math.max(0, share / most));
  return (
    <figure class="lived">
      <Fitted class="lived-room" guess={{ width: 330, height: HEIGHT }}>
        {({ width }) => {
          const step = width / shown.length;
          const wide = Math.min(18, step * 0.6);
          return (
            <svg
              width={width}
              height={HEIGHT}
              viewBox={`0 0 ${width} ${HEIGHT}`}
              role="img"
              aria-label={plain(told.picture)}
            >
              {shown.map((day, i) => (
                <Bar key={day.date} day={day} x={(i + 0.5) * step} wide={wide} y={y} />
              ))}
              <rect class="s-ink" x="0" y={y(line) - 1.5} width={width} height="3" />
              {shown.map(({ date }, i) => (
                <text key={date} class="lived-day" x={(i + 0.5) * step} y={HEIGHT - 4} text-anchor="middle">
                  {i % Math.ceil(46 / step) === 0 ? figures(Number(date.slice(8))) : ""}
                </text>
              ))}
            </svg>
          );
        }}
      </Fitted>
      <figcaption>
        <i class="key-bar" aria-hidden="true" /> {told.barWord} <i class="key-dot" aria-hidden="true" /> {told.dotWord}{" "}
        <i class="key-line" aria-hidden="true" /> {told.lineWord}
      </figcaption>
    </figure>
  );
}

function Bar({ day, x, wide, y }: { day: LivedDay; x: number; wide: number; y: (share: number) => number }) {
  const [, low = 0, likely = 0, high = 0] = day.said.home;
  const short = day.homeShare < day.said.reserveShare;
  return (
    <>
      <rect
        x={x - wide / 2}
        y={y(high)}
        width={wide}
        height={Math.max(2, y(low) - y(high))}
        class="lived-bar"
        fill="url(#hatch)"
      />
      <path d={`M${x - wide / 2} ${y(likely)}h${wide}`} class="s-line" stroke-width="2.6" />
      <circle
        cx={x}
        cy={y(day.homeShare)}
        r={isInside80(day) ? 4.5 : 6.5}
        class={short ? "lived-dot short" : "lived-dot"}
      />
    </>
  );
}

/** The same days as figures, the newest first. */
export function LivedTable({ days }: { days: readonly LivedDay[] }) {
  const told = logWords.now();
  const percent = (share: number) => leftToRight(`${figures(Math.round(100 * share))}\u00a0%`);
  return (
    <table class="lived-table">
      <thead>
        <tr>
          <th scope="col">{told.day}</th>
          <th scope="col">{told.guessed}</th>
          <th scope="col">{told.lived}</th>
          <th scope="col">{told.off}</th>
        </tr>
      </thead>
      <tbody>
        {[...days]
          .reverse()
          .slice(0, DRAWN)
          .map((day) => (
            <tr key={day.date}>
              <th scope="row">{dayAndMonth(day.date)}</th>
              <td>
                {percent(day.said.home[2] ?? 0)}
                <small>{told.band(percent(day.said.home[1] ?? 0), percent(day.said.home[3] ?? 0))}</small>
              </td>
              <td>{percent(day.homeShare)}</td>
              <td>
                <Say text={signedKm(day.offKm)} />
              </td>
            </tr>
          ))}
      </tbody>
    </table>
  );
}

const signedKm = (km: number): string => {
  const whole = Math.round(km);
  return whole === 0 ? figures(0) : leftToRight(signed(whole));
};
