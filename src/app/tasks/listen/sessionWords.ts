/** What the listening task says where its own work does not go on. */

/** What can be done without a microphone. */
export const OTHERWISE = "open a recording made with anything else";

export const WORKER_DIED =
  "Listening stopped, which is a fault in this program: press Listen again. What you kept is still there.";
