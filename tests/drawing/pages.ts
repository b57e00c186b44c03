/** A page of 100 × 100 mm with a user unit of 1 mm, and `content` on it. */
export function svg(content: string, attributes = ''): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"${attributes}>${content}</svg>`;
}
