/** A card file is imported as its text. */
declare module '*.card' {
  const text: string;
  export default text;
}
