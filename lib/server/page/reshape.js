// Another pattern or another size.
import {say} from './say.js';

/** Of another pattern blocks and layout begin anew; in another size stays what still has a place. What else changed is said. */
export async function reshape(quilt, how, words) {
  if (await quilt.change({does: 'reshape', value: how})) say(`${words} ${quilt.said} Undo brings it back as it was.`);
}
