/** Hands a file to the person: by the phone's own sharing where it takes files, else as a download. False when it was not taken. */
export async function saveFile(name: string, text: string, type: string): Promise<boolean> {
  const file = new File([text], name, { type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return true;
    } catch (closed) {
      if (closed instanceof DOMException && closed.name === "AbortError") return false;
      // sharing is there and does not work: a download still does
    }
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000); // some browsers read it late
  return true;
}
