/**
 * The files let go over a part of the page that takes them for what it is about, before the page takes one for an
 * instrument (`acceptDrops`, which also lets them be dragged here).
 */
export function dropped(event: DragEvent): readonly File[] {
  const files = [...(event.dataTransfer?.files ?? [])];
  if (files.length > 0) {
    event.preventDefault();
    event.stopPropagation();
  }
  return files;
}
