// What has to be done before there is anything to look at or to sew.
import {counted, large, make} from './make.js';
import {addressOf} from './shell.js';

/** Nothing where all blocks are dealt; else how it stands, and what is done first, as the parts of a sentence. */
export function waits(quilt) {
  const {prints, blocks} = quilt.top;
  if (!prints.length) {
    return {stands: 'No fabrics yet', says: ['Bring photographs of them in first: ', make('a', {href: addressOf(quilt.name, 'fabrics')}, 'Fabrics')]};
  }
  const open = blocks.filter((block) => block.prints.includes(null)).length;
  if (!open) return null;
  return {stands: open === blocks.length ? 'Not arranged yet' : large(counted(open, 'block waits', 'blocks wait')),
    says: ['Arranging deals the fabrics to the blocks and lays them']};
}
