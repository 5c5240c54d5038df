/** Hand a file to the browser. */

export function saveText(name: string, text: string, type = "text/csv;charset=utf-8"): void {
  saveUrl(name, URL.createObjectURL(new Blob([text], { type })), true);
}

export function saveUrl(name: string, url: string, free = false): void {
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  if (free) setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
