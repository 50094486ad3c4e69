// Takes README's picture of the page: the demo quilt's top in its own cloth, as it opens.
//   FARFLUNG=build/release/farflung node tools/page_bench/picture.mjs data/demo/page.jpg
import {execFileSync} from 'node:child_process';
import {join} from 'node:path';
import {cell, launch, leave, program, step, visit, Workroom} from '../../tests/page/workroom.mjs';

const file = process.argv[2] ?? 'page.jpg';
const room = new Workroom();
let browser;
try {
  execFileSync(program, ['demo', join(room.folder, 'Raffle'), '-q'], {stdio: ['ignore', 'ignore', 'inherit']});
  await room.serve();
  browser = await launch();
  const page = await visit(browser, room, step('Raffle', 'top'));
  await cell(page, 1, 1).waitFor({state: 'attached'});
  await page.waitForFunction(() => [...document.images].every((one) => one.complete));
  await page.waitForTimeout(1500);  // the cloth is drawn after its pictures have come
  await page.screenshot({path: file, type: 'jpeg', quality: 90});
} finally {
  await leave(room, browser);
}
console.log(file);
