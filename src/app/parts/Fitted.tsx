import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

export interface Box {
  readonly width: number;
  readonly height: number;
}

/** Measures the room a picture has, so that its text keeps its size instead of being stretched. */
export function Fitted(props: { class: string; guess: Box; children: (box: Box) => ComponentChildren }) {
  const place = useRef<HTMLDivElement>(null);
  const [box, setBox] = useState(props.guess);
  useLayoutEffect(() => {
    const element = place.current;
    if (!element) return;
    const look = () => {
      const { clientWidth: width, clientHeight: height } = element;
      if (width) setBox((old) => (old.width === width && old.height === height ? old : { width, height }));
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return (
    <div ref={place} class={props.class}>
      {props.children(box)}
    </div>
  );
}
