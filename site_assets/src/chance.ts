/** Identifiers from the browser's random source; `randomUUID` is absent on plain http. */

/** A UUID of version 4. */
export function drawUuid(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const text = hex(bytes);
  const cuts = [0, 8, 12, 16, 20, 32];
  return cuts.slice(1).map((end, place) => text.slice(cuts[place], end)).join("-");
}

/** An account: 32 hexadecimal digits that stand for a learner and say nothing about one. */
export function drawAccount(): string {
  return hex(crypto.getRandomValues(new Uint8Array(16)));
}

function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
