import { randomInt, timingSafeEqual } from 'node:crypto';
import { createDecoder, readVarUint, readVarUint8Array } from 'lib0/decoding';
import { createEncoder, length, toUint8Array, writeVarUint, writeVarUint8Array } from 'lib0/encoding';
import { WebSocketServer } from 'ws';
import { readSyncMessage, writeSyncStep1, writeUpdate } from 'y-protocols/sync';
import { Doc } from 'yjs';

/** @typedef {import('ws').WebSocket} WebSocket */
/** @typedef {import('./serve.mjs').Prepare} Prepare */
/**
 * @typedef {{
 *   readonly prepare: Prepare, readonly code: string, readonly cut: () => void, readonly close: () => void,
 * }} Share
 */

/** Without letters and digits that look alike. */
const LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const CODE_LENGTH = 10;

const SYNC = 0;
const AWARENESS = 1;

/** Closed with this where the code is wrong: the page's end then stops trying (4400 to 4499 are for good). */
export const WRONG_CODE = 4401;
/** After so many wrong codes within a minute nobody is let in until the minute is over: guessing would take for ever. */
const MOST_WRONG = 20;
const MOST_MESSAGE_BYTES = 32 * 1024 * 1024;
const MOST_CONNECTIONS = 16;

/** A code to be read off the desk's screen and typed at the tablet: two groups of five. */
export function newCode() {
  const letters = Array.from({ length: CODE_LENGTH }, () => LETTERS[randomInt(LETTERS.length)] ?? '');
  return `${letters.slice(0, 5).join('')}-${letters.slice(5).join('')}`;
}

/**
 * Equal however it was typed: capitals, spaces and dashes do not count.
 * @param {string} given
 * @param {string} code
 */
function sameCode(given, code) {
  const plain = (/** @type {string} */ text) =>
    Buffer.from(
      text
        .toUpperCase()
        .replace(/[^A-Z0-9]/g, '')
        .padEnd(32)
        .slice(0, 32),
    );
  return timingSafeEqual(plain(given), plain(code));
}

/**
 * The middle of the live hand-over: holds one document in memory while it runs and passes changes on between the devices that
 * know the code. It reads no job: each device checks what comes in as it checks a file. Nothing is written on this computer.
 * @param {string} [code]
 * @returns {Share}
 */
export function share(code = newCode()) {
  const doc = new Doc();
  const sockets = new WebSocketServer({ noServer: true, maxPayload: MOST_MESSAGE_BYTES });
  /** @type {number[]} */
  let wrong = [];

  /** @param {(encoder: import('lib0/encoding').Encoder) => void} write */
  const message = (write) => {
    const encoder = createEncoder();
    write(encoder);
    return toUint8Array(encoder);
  };
  doc.on('update', (/** @type {Uint8Array} */ update, /** @type {unknown} */ from) => {
    const bytes = message((encoder) => {
      writeVarUint(encoder, SYNC);
      writeUpdate(encoder, update);
    });
    for (const socket of sockets.clients) if (socket !== from) socket.send(bytes);
  });

  /** @param {WebSocket} socket @param {Uint8Array} bytes */
  function answer(socket, bytes) {
    const decoder = createDecoder(bytes);
    switch (readVarUint(decoder)) {
      case SYNC: {
        const encoder = createEncoder();
        writeVarUint(encoder, SYNC);
        readSyncMessage(decoder, encoder, doc, socket);
        if (length(encoder) > 1) socket.send(toUint8Array(encoder));
        return;
      }
      case AWARENESS: {
        // Sent back as it came: a sign of life, which the page's end waits for.
        const state = readVarUint8Array(decoder);
        socket.send(
          message((encoder) => {
            writeVarUint(encoder, AWARENESS);
            writeVarUint8Array(encoder, state);
          }),
        );
      }
    }
  }

  sockets.on('connection', (socket) => {
    socket.on('error', () => socket.terminate());
    socket.on('message', (data) => {
      try {
        answer(socket, new Uint8Array(/** @type {Buffer} */ (data)));
      } catch {
        // Not a message of this protocol: this end stops listening to it, and the document stays as it was.
        socket.close(4400, 'not understood');
      }
    });
    socket.send(
      message((encoder) => {
        writeVarUint(encoder, SYNC);
        writeSyncStep1(encoder, doc);
      }),
    );
  });

  /** @type {import('./serve.mjs').Prepare} */
  const prepare = (server) => {
    server.on('upgrade', (request, socket, head) => {
      socket.on('error', () => socket.destroy());
      const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost');
      const { origin, host } = request.headers;
      // A page of another site must not use this person's browser to get in, even with the code.
      const foreign = origin !== undefined && new URL(origin).host !== host;
      if (!pathname.startsWith('/share/') || foreign || sockets.clients.size >= MOST_CONNECTIONS) {
        socket.end('HTTP/1.1 404 Not Found\r\nConnection: close\r\n\r\n');
        return;
      }
      const now = Date.now();
      wrong = wrong.filter((at) => now - at < 60_000);
      const welcome = wrong.length < MOST_WRONG && sameCode(searchParams.get('code') ?? '', code);
      if (!welcome) wrong.push(now);
      sockets.handleUpgrade(request, socket, head, (opened) => {
        // Told over the socket itself, since a browser hides from the page why a socket was refused.
        if (welcome) sockets.emit('connection', opened, request);
        else opened.close(WRONG_CODE, 'wrong code');
      });
    });
  };
  const cut = () => {
    for (const socket of sockets.clients) socket.terminate();
  };
  return {
    prepare,
    code,
    cut,
    close: () => {
      cut();
      sockets.close();
      doc.destroy();
    },
  };
}
