import { effect, signal } from "@preact/signals";
import { Component, type ComponentChildren } from "preact";
import { answerBroke, current } from "./answers.js";
import { vehicleOf, yardOf, yards } from "./fleet.js";
import { Broke } from "./parts/Broke.js";
import { fetchScreen, type ShownScreen } from "./places.js";
import { path } from "./router.js";
import { entryOf } from "./screens/index.js";
import { NothingHere } from "./screens/Today.js";

const shown = signal<ShownScreen | null>(null);
/** A bug, or a part of the app that has not come over the network. */
const broke = signal<unknown>(null);

let asked = 0;
async function show(to: string): Promise<void> {
  const turn = ++asked;
  try {
    const screen = await fetchScreen(to, entryOf);
    if (turn !== asked) return; // a later step has overtaken this one
    shown.value = screen;
    broke.value = null;
  } catch (problem) {
    if (turn === asked) broke.value = problem;
  }
}

/** Fetches the first screen, then follows the path. */
export async function showScreens(): Promise<void> {
  let last = path.value; // a step taken while the first screen is fetched is followed too
  await show(last);
  effect(() => {
    const to = path.value;
    if (to !== last) void show(to).then(() => document.querySelector(".mid")?.scrollTo(0, 0));
    last = to;
  });
  addEventListener("unhandledrejection", (event) => {
    broke.value = event.reason;
  });
}

export function App() {
  const problem = broke.value ?? answerBroke.value;
  const goOn = () => {
    broke.value = null;
    answerBroke.value = null;
    void show(path.value);
  };
  if (problem !== null) return <Broke problem={problem} onGoOn={goOn} />;
  const screen = shown.value;
  if (!screen) return null;
  if (!isThere(screen)) return <NothingHere place={screen.entry.place} />;
  return (
    <Boundary key={path.value} onBroke={(bug) => (broke.value = bug)}>
      <screen.Screen key={screen.name} params={screen.params} />
    </Boundary>
  );
}

/** An address may name what is not on this phone, and everything may be removed while a screen stands open. */
function isThere({ entry: { needs }, params }: ShownScreen): boolean {
  if (needs === "named") return vehicleOf(params.join("/")) !== undefined;
  if (needs === "yard") return yards.value.length > 0;
  return needs === undefined || (current.value !== null && yardOf(current.value) !== undefined);
}

interface BoundaryProps {
  readonly onBroke: (bug: unknown) => void;
  readonly children: ComponentChildren;
}
/** A bug in one screen ends that screen, not the app. */
class Boundary extends Component<BoundaryProps> {
  override componentDidCatch(bug: unknown): void {
    this.props.onBroke(bug);
  }
  render() {
    return this.props.children;
  }
}
