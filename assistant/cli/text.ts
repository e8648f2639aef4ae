/** A paragraph wrapped to `width` columns; `first` leads the first line, `rest` the others. */
export const wrapped = (text: string, first: string, rest: string, width = 96): string => {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
};
