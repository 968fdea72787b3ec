/** Asks one question at a time; while one is under way only the newest waits. */
export function newest<Question>(ask: (question: Question) => Promise<void>): (question: Question) => void {
  let waiting: { readonly question: Question } | null = null;
  let isBusy = false;
  const work = async () => {
    isBusy = true;
    while (waiting) {
      const { question } = waiting;
      waiting = null;
      await ask(question);
    }
    isBusy = false;
  };
  return (question) => {
    waiting = { question };
    if (!isBusy) void work();
  };
}
