// QR codes as ISO/IEC 18004 describes them: bytes, error correction level L, versions 1 to 20.
// Enough for an address that a phone reads off the screen of another.
(function (root) {
  "use strict";

  // ISO/IEC 18004, table 9, level L: codewords for correction in a block, and blocks.
  const CORRECTION = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28];
  const BLOCKS = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8];
  const LEVEL_L = 1;
  const FINDER_LIKE = ["10111010000", "00001011101"];

  /** @type {((row: number, column: number) => boolean)[]} as in table 10 */
  const MASKS = [
    (row, column) => (row + column) % 2 === 0,
    (row) => row % 2 === 0,
    (_, column) => column % 3 === 0,
    (row, column) => (row + column) % 3 === 0,
    (row, column) => (Math.floor(row / 2) + Math.floor(column / 3)) % 2 === 0,
    (row, column) => ((row * column) % 2) + ((row * column) % 3) === 0,
    (row, column) => (((row * column) % 2) + ((row * column) % 3)) % 2 === 0,
    (row, column) => (((row + column) % 2) + ((row * column) % 3)) % 2 === 0,
  ];

  /** Multiplies in the field of 256 numbers by x^8 + x^4 + x^3 + x^2 + 1. @param {number} a @param {number} b */
  function multiply(a, b) {
    let product = 0;
    for (let bit = 7; bit >= 0; bit -= 1) {
      product = (product << 1) ^ ((product >> 7) * 0x11d);
      product ^= ((b >> bit) & 1) * a;
    }
    return product;
  }

  /** The codewords that let a reader mend a block: Reed and Solomon's. @param {number[]} block @param {number} count */
  function correct(block, count) {
    let divisor = [1]; // (x - 1)(x - 2)(x - 4)..., highest power first
    for (let index = 0, power = 1; index < count; index += 1, power = multiply(power, 2)) {
      const shifted = [...divisor, 0];
      divisor.forEach((term, at) => {
        shifted[at + 1] = (shifted[at + 1] || 0) ^ multiply(term, power);
      });
      divisor = shifted;
    }
    const rest = [...block, ...new Array(count).fill(0)];
    block.forEach((_, at) => {
      const lead = rest[at] || 0;
      divisor.forEach((term, step) => {
        rest[at + step] = (rest[at + step] || 0) ^ multiply(term, lead);
      });
    });
    return rest.slice(block.length);
  }

  /** Where small squares stand, from the standard's annex E. @param {number} version */
  function alignments(version) {
    if (version === 1) {
      return [];
    }
    const count = Math.floor(version / 7) + 2;
    const last = version * 4 + 10;
    const step = Math.ceil((last - 6) / (count - 1) / 2) * 2;
    return [6, ...Array.from({ length: count - 1 }, (_, index) => last - step * (count - 2 - index))];
  }

  /** How many codewords a version has in all. @param {number} version */
  function countCodewords(version) {
    const squares = alignments(version).length;
    const cells = (version * 4 + 17) ** 2;
    const finders = 3 * 64 + 31 + 2 * (version * 4 + 1); // with format and timing
    const inTiming = squares > 2 ? 10 * (squares - 2) : 0;
    const aligned = squares ? (squares ** 2 - 3) * 25 - inTiming : 0;
    return Math.floor((cells - finders - aligned - (version >= 7 ? 36 : 0)) / 8);
  }

  /** @param {number} version */
  function countData(version) {
    return countCodewords(version) - (CORRECTION[version - 1] || 0) * (BLOCKS[version - 1] || 0);
  }

  /** Bytes to codewords: mode, length, data, then filling. @param {Uint8Array} bytes @param {number} version */
  function encode(bytes, version) {
    const lengthBits = version < 10 ? 8 : 16;
    let bits = "0100" + bytes.length.toString(2).padStart(lengthBits, "0");
    bytes.forEach((byte) => {
      bits += byte.toString(2).padStart(8, "0");
    });
    const most = countData(version) * 8;
    bits += "0".repeat(Math.min(4, most - bits.length));
    bits += "0".repeat((8 - (bits.length % 8)) % 8);
    for (let index = 0; bits.length < most; index += 1) {
      bits += index % 2 ? "00010001" : "11101100";
    }
    return (bits.match(/.{8}/g) || []).map((byte) => Number.parseInt(byte, 2));
  }

  /** Parts codewords into blocks and weaves them together with their correction. @param {number[]} data @param {number} version */
  function weave(data, version) {
    const count = BLOCKS[version - 1] || 1;
    const short = Math.floor(data.length / count);
    const longs = data.length % count;
    const blocks = Array.from({ length: count }, (_, index) => {
      const from = index * short + Math.max(0, index - (count - longs));
      return data.slice(from, from + short + (index >= count - longs ? 1 : 0));
    });
    const corrections = blocks.map((block) => correct(block, CORRECTION[version - 1] || 0));
    return [blocks, corrections].flatMap((parts) => {
      const longest = Math.max(...parts.map((part) => part.length));
      return Array.from({ length: longest }, (_, at) => parts.flatMap((part) => part.slice(at, at + 1))).flat();
    });
  }

  /** A number with the rest of its division behind it: Bose, Chaudhuri and Hocquenghem's. @param {number} value @param {number} divisor @param {number} bits */
  function addCheck(value, divisor, bits) {
    let rest = value << bits;
    for (let shift = 31 - Math.clz32(rest); shift >= bits; shift = 31 - Math.clz32(rest)) {
      rest ^= divisor << (shift - bits);
    }
    return (value << bits) | rest;
  }

  /**
   * What every code of a version has: finders, small squares, timing and the version; false and
   * true are fixed, undefined is free for data.
   * @param {number} version @returns {(boolean | undefined)[][]}
   */
  function drawFrame(version) {
    const size = version * 4 + 17;
    /** @type {(boolean | undefined)[][]} */
    const cells = Array.from({ length: size }, () => new Array(size).fill(undefined));
    /** @param {number} row @param {number} column @param {boolean} isDark */
    const set = (row, column, isDark) => {
      const line = cells[row];
      if (line && column >= 0 && column < size) {
        line[column] = isDark;
      }
    };
    /** @param {number} row @param {number} column @param {number} reach */
    const square = (row, column, reach) => {
      for (let down = -reach; down <= reach; down += 1) {
        for (let across = -reach; across <= reach; across += 1) {
          const ring = Math.max(Math.abs(down), Math.abs(across));
          set(row + down, column + across, ring !== 4 && ring !== (reach === 4 ? 2 : 1));
        }
      }
    };
    for (let at = 8; at < size - 8; at += 1) {
      set(6, at, at % 2 === 0);
      set(at, 6, at % 2 === 0);
    }
    const places = alignments(version);
    const far = size - 7;
    for (const row of places) {
      for (const column of places) {
        const isFinder = (row === 6 && column === 6) || (row === 6 && column === far) || (row === far && column === 6);
        if (!isFinder) {
          square(row, column, 2);
        }
      }
    }
    square(3, 3, 4);
    square(3, size - 4, 4);
    square(size - 4, 3, 4);
    if (version >= 7) {
      const bits = addCheck(version, 0x1f25, 12);
      for (let at = 0; at < 18; at += 1) {
        const isDark = ((bits >> at) & 1) === 1;
        set(Math.floor(at / 3), size - 11 + (at % 3), isDark);
        set(size - 11 + (at % 3), Math.floor(at / 3), isDark);
      }
    }
    setFormat(0, size, set);
    return cells;
  }

  /** Level and mask, twice, and the one cell that is always dark. @param {number} mask @param {number} size @param {(row: number, column: number, isDark: boolean) => void} set */
  function setFormat(mask, size, set) {
    const bits = addCheck((LEVEL_L << 3) | mask, 0x537, 10) ^ 0x5412;
    for (let at = 0; at < 15; at += 1) {
      const isDark = ((bits >> at) & 1) === 1;
      set(at < 6 ? at : at < 8 ? at + 1 : size - 15 + at, 8, isDark);
      set(8, at < 8 ? size - 1 - at : at === 8 ? 7 : 14 - at, isDark);
    }
    set(size - 8, 8, true);
  }

  /** Fills the free cells, two columns at a time from the right, up and down in turn. @param {(boolean | undefined)[][]} frame @param {number[]} words @param {number} mask */
  function fill(frame, words, mask) {
    const size = frame.length;
    const covers = MASKS[mask] || (() => false);
    const cells = frame.map((line) => line.map((cell) => cell === true));
    let bit = 0;
    for (let pair = 0, right = size - 1; right > 0; right -= 2, pair += 1) {
      right -= right === 6 ? 1 : 0; // the timing column is no pair's
      for (let step = 0; step < size; step += 1) {
        const row = pair % 2 === 0 ? size - 1 - step : step;
        for (const column of [right, right - 1]) {
          const line = cells[row];
          if (line && frame[row]?.[column] === undefined) {
            const isSet = (((words[bit >> 3] || 0) >> (7 - (bit & 7))) & 1) === 1;
            line[column] = isSet !== covers(row, column);
            bit += 1;
          }
        }
      }
    }
    setFormat(mask, size, (row, column, isDark) => {
      const line = cells[row];
      if (line) {
        line[column] = isDark;
      }
    });
    return cells;
  }

  /** How hard a code is to read; table 11. @param {boolean[][]} cells */
  function judge(cells) {
    const size = cells.length;
    const rows = cells.map((line) => line.map(Number).join(""));
    const columns = rows.map((_, at) => rows.map((row) => row[at]).join(""));
    let points = 0;
    for (const line of [...rows, ...columns]) {
      for (const run of line.match(/0{5,}|1{5,}/g) || []) {
        points += run.length - 2;
      }
      for (let at = 0; at + 11 <= size; at += 1) {
        points += FINDER_LIKE.includes(line.slice(at, at + 11)) ? 40 : 0;
      }
    }
    rows.slice(1).forEach((row, above) => {
      for (let at = 1; at < size; at += 1) {
        const four = row.slice(at - 1, at + 1) + (rows[above] || "").slice(at - 1, at + 1);
        points += four === "0000" || four === "1111" ? 3 : 0;
      }
    });
    const dark = rows.join("").replaceAll("0", "").length / size ** 2;
    return points + 10 * Math.floor(Math.abs(dark * 100 - 50) / 5);
  }

  /** @type {Tempoleaf["makeQr"]} */
  function makeQr(text, mask) {
    const bytes = new TextEncoder().encode(text);
    const version = 1 + CORRECTION.findIndex((_, at) => bytes.length <= countData(at + 1) - (at < 9 ? 2 : 3));
    if (version === 0) {
      throw new RangeError(`${bytes.length} bytes are too many for a QR code of version 20`);
    }
    const words = weave(encode(bytes, version), version);
    const frame = drawFrame(version);
    if (mask !== undefined) {
      return fill(frame, words, mask);
    }
    const codes = MASKS.map((_, index) => fill(frame, words, index));
    const points = codes.map(judge);
    return codes[points.indexOf(Math.min(...points))] || [];
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {QrScript} */ ({ makeQr }),
  );
})(globalThis);
