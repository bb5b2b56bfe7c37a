import { pieces } from "../words/format.js";

/** A sentence whose figures stand in the face for figures. */
export function Say({ text }: { text: string }) {
  return (
    <>
      {pieces(text).map((piece, i) =>
        i % 2 === 1 ? (
          <span key={`${i}${piece}`} class="fig">
            {piece}
          </span>
        ) : (
          piece
        ),
      )}
    </>
  );
}
