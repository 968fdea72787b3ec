/** Reading a CSV table of outside values, wherever its text came from: lines that start with # and the head are left out. */
export const rowsOf = (text: string): string[][] =>
  text
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"))
    .slice(1)
    .map((line) => line.split(","));

export const numbersOf = (text: string): number[][] => rowsOf(text).map((row) => row.map(Number));
