/** Lets waiting messages in between the steps of long work: a message to oneself queues behind those already there. */
export class Turns {
  readonly #channel = new MessageChannel();

  /** Resolves when what was waiting has had its turn. */
  next(): Promise<void> {
    const { port1, port2 } = this.#channel;
    return new Promise((resolve) => {
      port1.onmessage = () => resolve();
      port2.postMessage(null);
    });
  }

  end(): void {
    this.#channel.port1.close();
  }
}
