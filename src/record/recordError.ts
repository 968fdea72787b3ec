/** Something of the record that cannot be read or done, in one line for the person: what, where, what would be right. */
export class RecordError extends Error {
  override name = "RecordError";
}
