/** Striped edge, one or two lines, at the point of risk. Nothing to press away. */
export const Caution = ({ text }: { text: string }) => (
  <p class="caution" role="note">
    {text}
  </p>
);
