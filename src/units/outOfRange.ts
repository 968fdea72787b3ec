/**
 * Something was asked for that cannot be had, said in words for who asked: what, where, what would be right. Apart from the
 * language's own RangeError, which is a fault of this program and no message for anybody.
 */
export class OutOfRange extends RangeError {
  override name = "OutOfRange";
}
