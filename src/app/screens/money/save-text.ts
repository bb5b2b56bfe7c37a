/** Hands a text to the phone as a file of its own; with a byte-order mark, so that spreadsheets read other scripts right. */
export function saveText(name: string, type: string, text: string): void {
  const url = URL.createObjectURL(new Blob(["\ufeff", text], { type: `${type};charset=utf-8` }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
