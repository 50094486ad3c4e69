// Another pattern or another size.
import {say} from './say.js';

/** Blocks and layout begin anew, prints and borders stay. */
export async function reshape(quilt, how, words) {
  if (await quilt.change({does: 'reshape', value: how})) say(`${words} Undo brings it back as it was.`);
}
