/** Takes the named lock until this worker ends; false where the browser has none. */
export function holdLock(name: string): Promise<boolean> {
  if (!("locks" in navigator)) return Promise.resolve(false);
  return new Promise((resolve) => {
    navigator.locks
      .request(name, () => {
        resolve(true);
        return new Promise<void>(() => {});
      })
      .catch(() => resolve(false));
  });
}
