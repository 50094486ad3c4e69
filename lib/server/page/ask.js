// Requests to the program, and what it answers.
import {sentences} from './make.js';

/** The program said no, in words; `status` is that of HTTP, `answer` what it sent. */
export class Refused extends Error {
  constructor(status, answer) {
    super(sentences(answer?.problems ?? []) || 'This could not be done.');
    this.status = status;
    this.answer = answer;
  }
}

/** The program could not be reached. */
export class Lost extends Error {}

const kPatience = 30_000;

async function send(address, options) {
  let response;
  try {
    response = await fetch(address, {signal: AbortSignal.timeout(kPatience), ...options});
  } catch {
    throw new Lost('The program cannot be reached.');
  }
  if (response.status === 503 || response.status === 502) throw new Lost('The program is not ready.');
  const text = await response.text();
  let answer = null;
  try {
    answer = JSON.parse(text);
  } catch {
    if (response.ok) throw new Lost('The answer was cut off.');
  }
  if (!response.ok) throw new Refused(response.status, answer);
  return answer;
}

export const get = (address) => send(address, {});
export const remove = (address) => send(address, {method: 'DELETE'});

export function post(address, what) {
  return send(address, {method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify(what)});
}

/**
 * Sends a file as it is. `told` is called with the share sent, 0..1.
 * @returns {Promise<any>}
 */
export function upload(address, file, told = () => {}) {
  return new Promise((done, failed) => {
    const request = new XMLHttpRequest();
    request.open('POST', address);
    request.responseType = 'text';
    request.upload.onprogress = (event) => event.lengthComputable && told(event.loaded / event.total);
    request.onerror = request.onabort = () => failed(new Lost('The program cannot be reached.'));
    request.onload = () => {
      let answer = null;
      try {
        answer = JSON.parse(request.responseText);
      } catch { /* said by the status */ }
      if (request.status < 300) done(answer);
      else failed(new Refused(request.status, answer));
    };
    request.send(file);
  });
}

/** The address of something of one quilt. */
export function of(quilt, ...parts) {
  return ['/quilts', quilt, ...parts].map((part, k) => (k ? encodeURIComponent(part) : part)).join('/');
}
