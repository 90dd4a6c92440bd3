import { closeSync, openSync, readSync, readdirSync, realpathSync, statSync, writeFileSync } from "node:fs";
import { open, readFile } from "node:fs/promises";
import { basename, join, posix, resolve } from "node:path";
import { createRequire } from "module";
import { hash } from "node:crypto";
import inspector from "node:inspector";
// ../../work/wt-reader/src/batch/walk.ts
/** Walks a folder: its files, those behind links, and what could not be walked. */
/** Folders deeper than this are not walked. */
var MAX_DEPTH = 32;
/** More files than this are taken for the wrong folder. */
var MAX_FILES = 2e5;
/**
* All files of a folder and the folders in it; names that begin with a point are passed over.
* Links are followed last, and only to what was not met before, so that no file is read twice and
* no ring of links is walked for ever.
*
* @throws Error where the folder itself cannot be listed
*/
function walk(root) {
	const walking = new Walking();
	walking.folder({
		at: realpathSync(root),
		named: "",
		depth: 0
	});
	walking.links();
	return walking;
}
var Walking = class {
	files = [];
	problems = [];
	#links = [];
	#folders = /* @__PURE__ */ new Set();
	/** Where files stand that are read. */
	#places = /* @__PURE__ */ new Set();
	#full = false;
	folder({ at, named, depth }) {
		if (this.#folders.has(at)) return;
		if (depth > MAX_DEPTH) {
			const problem = `folders are nested more than ${MAX_DEPTH} deep`;
			this.#note(named, problem, "left out; name the inner folder itself");
			return;
		}
		this.#folders.add(at);
		for (const entry of readdirSync(at, { withFileTypes: true })) {
			if (entry.name.startsWith(".") || this.#full) continue;
			const inner = {
				at: join(at, entry.name),
				named: posix.join(named, entry.name),
				depth
			};
			if (entry.isSymbolicLink()) this.#links.push(inner);
			else if (entry.isDirectory()) this.#inner({
				...inner,
				depth: depth + 1
			});
			else if (entry.isFile()) this.#file(inner);
			else this.#note(inner.named, "it is neither a file nor a folder", "left out");
		}
	}
	/** Follows the links that were met, and those behind them. */
	links() {
		for (const link of this.#links) try {
			const at = realpathSync(link.at);
			if (this.#places.has(at) || this.#folders.has(at)) this.#note(link.named, "a link to what is read already", "not read twice");
			else if (statSync(at).isDirectory()) this.#inner({
				...link,
				at,
				depth: link.depth + 1
			});
			else this.#file({
				...link,
				at
			});
		} catch (error) {
			this.#unopened(link.named, error, "a link that leads nowhere");
		}
	}
	#inner(folder) {
		try {
			this.folder(folder);
		} catch (error) {
			this.#unopened(folder.named, error);
		}
	}
	#file({ at, named }) {
		if (this.#places.has(at)) return;
		if (this.files.length >= MAX_FILES) {
			this.#full = true;
			const problem = `the folder holds more than ${MAX_FILES} files`;
			this.#note(named, problem, "this file and those after it were left out; name smaller folders");
			return;
		}
		try {
			const stats = statSync(at);
			if (stats.isFile()) {
				this.#places.add(at);
				this.files.push({
					at,
					named,
					size: stats.size
				});
			} else this.#note(named, "it is neither a file nor a folder", "left out");
		} catch (error) {
			this.#unopened(named, error);
		}
	}
	#unopened(named, error, missing) {
		const { problem, done } = unopened(named, error);
		if (named.includes("�")) {
			this.#note(named, "its name is written in another encoding than UTF-8", "left out; rename it");
			return;
		}
		const isMissing = error.code === "ENOENT" && missing !== void 0;
		this.#note(named, isMissing ? missing : problem, done);
	}
	#note(file, problem, done) {
		this.problems.push({
			file,
			line: null,
			problem,
			done
		});
	}
};
/** What is told of a path that cannot be opened. */
function unopened(file, error) {
	return {
		file,
		line: null,
		problem: `it cannot be opened: ${error.code ?? error.message}`,
		done: "left out; check the path"
	};
}
// ../../work/wt-reader/src/batch/files.ts
/** Files on disk as the project reads them. */
/**
* The files named and those in the folders named, in order of their paths. A path in the result
* begins inside the named folder, so that outputs do not depend on where it stands; where two
* would be alike, both begin with their named folder's own name.
*/
function findFiles(paths) {
	const found = [];
	const problems = [];
	for (const path of paths) {
		const root = basename(resolve(path));
		try {
			const stats = statSync(path);
			if (stats.isFile()) {
				const source = sourceOf({
					at: path,
					named: root,
					size: stats.size
				});
				found.push({
					root,
					source
				});
				continue;
			}
			const walked = walk(path);
			problems.push(...walked.problems);
			if (walked.files.length + walked.problems.length === 0) problems.push({
				file: path,
				line: null,
				problem: "the folder is empty",
				done: "nothing to read; check the path"
			});
			for (const file of walked.files) found.push({
				root,
				source: sourceOf(file)
			});
		} catch (error) {
			problems.push(unopened(path, error));
		}
	}
	return {
		sources: distinct(found, problems).sort(byPath),
		problems
	};
}
function distinct(found, problems) {
	const counts = /* @__PURE__ */ new Map();
	for (const { source } of found) counts.set(source.path, (counts.get(source.path) ?? 0) + 1);
	const taken = /* @__PURE__ */ new Set();
	return found.flatMap(({ root, source }) => {
		const path = (counts.get(source.path) ?? 0) > 1 ? posix.join(root, source.path) : source.path;
		if (taken.has(path)) {
			problems.push({
				file: path,
				line: null,
				problem: "two files come out under this name",
				done: "the second was left out; name each folder once, or rename one"
			});
			return [];
		}
		taken.add(path);
		return [path === source.path ? source : {
			...source,
			path
		}];
	});
}
function byPath(a, b) {
	return a.path < b.path ? -1 : a.path > b.path ? 1 : 0;
}
function sourceOf({ at, named, size }) {
	return {
		path: named,
		size,
		at,
		read: async () => new Uint8Array(await readFile(at)),
		peek: (bytes) => firstBytes(at, bytes)
	};
}
async function firstBytes(path, bytes) {
	const file = await open(path);
	try {
		const buffer = new Uint8Array(bytes);
		const { bytesRead } = await file.read(buffer, 0, bytes, 0);
		return buffer.subarray(0, bytesRead);
	} finally {
		await file.close();
	}
}
// ../../work/wt-reader/src/readers/numbers.ts
/**
* Decimal numbers straight from bytes, correctly rounded.
*
* A decimal of at most 15 significant digits is an integer below 2^53, and a power of ten up to
* 10^22 is exact in a double, so one multiplication or division rounds once and correctly
* (Clinger 1990, PLDI, "How to read floating point numbers accurately"). Others go to Number().
*/
var TENS = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
/** A blank or a tab; other control characters are damage. */
function isSpace(byte) {
	return byte === 32 || byte === 9;
}
/**
* The number in `[start, end)`, blanks around it allowed.
*
* @param decimal the byte of the decimal sign, `POINT` or `COMMA`
* @returns NaN where it is not wholly a finite decimal number
*/
function parseNumber(bytes, start, end, decimal) {
	let i = start;
	while (i < end && isSpace(bytes[i])) i++;
	while (end > i && isSpace(bytes[end - 1])) end--;
	const begin = i;
	let byte = bytes[i];
	const negative = byte === 45;
	if (negative || byte === 43) i++;
	let mantissa = 0;
	let digits = 0;
	let significant = 0;
	let scale = 0;
	for (let fraction = false; i < end; i++) {
		byte = bytes[i];
		const digit = byte - 48;
		if (digit >= 0 && digit <= 9) {
			mantissa = mantissa * 10 + digit;
			digits++;
			if (mantissa > 0) significant++;
			if (fraction) scale--;
		} else if (byte === decimal && !fraction) fraction = true;
		else break;
	}
	if (digits === 0) return NaN;
	if (i < end) {
		if ((bytes[i] | 32) !== 101) return NaN;
		i++;
		const below = bytes[i] === 45;
		if (below || bytes[i] === 43) i++;
		if (i >= end || end - i > 6) return NaN;
		let exponent = 0;
		for (; i < end; i++) {
			const digit = bytes[i] - 48;
			if (!(digit >= 0 && digit <= 9)) return NaN;
			exponent = exponent * 10 + digit;
		}
		scale += below ? -exponent : exponent;
	}
	if (decimal === 44 && bytes[end - 1] === 44) return NaN;
	return rounded(mantissa, significant, scale, negative, bytes, begin, end);
}
/** The exact quotient or product where one rounding is enough, else by Number(). */
function rounded(mantissa, significant, scale, negative, bytes, begin, end) {
	if (significant <= 15 && scale >= -22 && scale <= 22) {
		const value = scale < 0 ? mantissa / TENS[-scale] : mantissa * TENS[scale];
		return negative ? -value : value;
	}
	let text = "";
	for (let i = begin; i < end; i++) {
		const byte = bytes[i];
		text += String.fromCharCode(byte === 44 ? 46 : byte);
	}
	const value = Number(text);
	return Number.isFinite(value) ? value : NaN;
}
var GAP_MARKS = /* @__PURE__ */ new Set([
	"",
	"nan",
	"na",
	"n/a",
	"#n/a",
	"null",
	"none",
	"-",
	"--",
	"*"
]);
/** Whether a cell says that there is no value. */
function isGapMark(bytes, start, end) {
	if (end - start > 12) return blank(bytes, start, end);
	let text = "";
	for (let i = start; i < end; i++) text += String.fromCharCode(bytes[i]);
	return GAP_MARKS.has(text.trim().toLowerCase());
}
function blank(bytes, start, end) {
	for (let i = start; i < end; i++) if (!isSpace(bytes[i])) return false;
	return true;
}
/**
* Whether a number stands for a deleted channel: -1.23e34 in the public library (Kokaly et al.
* 2017, USGS Data Series 1035), -9999 and -999 by common practice.
*/
function isDeleted(value) {
	return value <= -1e30 || value === -9999 || value === -999;
}
// ../../work/wt-reader/src/readers/lines.ts
/** Lines and cells in UTF-8 bytes, found without making strings. */
/** Longer than any row of a table of 50,000 columns: what has such a line is no table. */
var LONGEST_LINE = 1e6;
/** More rows than any instrument has channels. */
var MOST_ROWS$1 = 5e5;
/** Where the line that begins at `start` ends: at its CR or LF, at `limit` or the end of the bytes. */
function lineEnd(bytes, start, limit = bytes.length) {
	const last = Math.min(limit, bytes.length);
	let i = start;
	while (i < last && bytes[i] !== 10 && bytes[i] !== 13) i++;
	return i;
}
/** Where the line after the one that ends at `end` begins. CRLF, LF and a lone CR each end a line. */
function nextLine(bytes, end) {
	return bytes[end] === 13 && bytes[end + 1] === 10 ? end + 2 : end + 1;
}
/** Whether a stretch holds nothing but blanks. */
function isBlank(bytes, start, end) {
	for (let i = start; i < end; i++) if (!isSpace(bytes[i])) return false;
	return true;
}
/** Splits lines into cells; `starts` and `ends` hold the cells of the last line split. */
var CellSplitter = class {
	starts = /* @__PURE__ */ new Int32Array(64);
	ends = /* @__PURE__ */ new Int32Array(64);
	count = 0;
	/**
	* Splits `[start, end)` at a delimiter byte; `BLANK` splits at runs of blanks and tabs, 0 nowhere.
	* A cell in double quotes (RFC 4180) comes without them.
	*/
	split(bytes, start, end, delimiter) {
		this.count = 0;
		if (delimiter === 32) this.splitAtBlanks(bytes, start, end);
		else this.splitAt(bytes, start, end, delimiter);
		return this.count;
	}
	splitAt(bytes, start, end, delimiter) {
		let i = start;
		for (;;) {
			while (i < end && bytes[i] === 32) i++;
			const close = i < end && bytes[i] === 34 ? closingQuote$1(bytes, i + 1, end) : -1;
			const begin = i;
			while (i < end && bytes[i] !== delimiter) i++;
			if (close > i) i = cellEnd$2(bytes, close, end, delimiter);
			let last = i;
			while (last > begin && isSpace(bytes[last - 1])) last--;
			if (close >= 0 && close === last - 1) this.add(begin + 1, close);
			else this.add(begin, last);
			if (i >= end) return;
			i++;
		}
	}
	splitAtBlanks(bytes, start, end) {
		let i = start;
		for (;;) {
			while (i < end && isSpace(bytes[i])) i++;
			if (i >= end) return;
			const begin = i;
			while (i < end && !isSpace(bytes[i])) i++;
			if (bytes[begin] === 34 && bytes[i - 1] === 34 && i - begin > 1) this.add(begin + 1, i - 1);
			else this.add(begin, i);
		}
	}
	add(start, end) {
		if (this.count === this.starts.length) {
			const starts = new Int32Array(this.count * 2);
			const ends = new Int32Array(this.count * 2);
			starts.set(this.starts);
			ends.set(this.ends);
			this.starts = starts;
			this.ends = ends;
		}
		this.starts[this.count] = start;
		this.ends[this.count++] = end;
	}
};
function cellEnd$2(bytes, start, end, delimiter) {
	let i = start;
	while (i < end && bytes[i] !== delimiter) i++;
	return i;
}
/** The quote that closes the cell, or -1; a doubled one stands for itself. */
function closingQuote$1(bytes, start, end) {
	let i = start;
	while (i < end) {
		if (bytes[i] === 34) {
			if (bytes[i + 1] !== 34) return i;
			i++;
		}
		i++;
	}
	return -1;
}
// ../../work/wt-reader/src/readers/known-axis.ts
/** A longer axis is no instrument's and is not kept. */
var MOST_ROWS = 65536;
/** The longest beginning of a line that is kept. */
var MOST_TEXT = 32;
/** The last axes, the newest first. What is kept changes how fast a file is read, never its numbers. */
var kept$2 = [];
/**
* Keeps the first column of a text that was read in two columns.
*
* @param start where the first row begins
* @param wavelengths what its first cells are, a row each, without rows between
*/
function keepAxis(bytes, start, { delimiter, decimal }, wavelengths) {
	const rows = wavelengths.length;
	if (rows > MOST_ROWS || delimiter === decimal) return;
	const lengths = new Uint8Array(rows);
	const begins = new Int32Array(rows);
	let longest = 0;
	let at = start;
	for (let row = 0; row < rows; row++) {
		const count = cellEnd$1(bytes, at, delimiter) + 1 - at;
		if (count > MOST_TEXT) return;
		if (count > longest) longest = count;
		begins[row] = at;
		lengths[row] = count;
		at = nextLine(bytes, lineEnd(bytes, at));
	}
	const wordsPerRow = Math.ceil(longest / 4);
	const text = new Uint8Array(rows * wordsPerRow * 4);
	const mask = new Uint8Array(text.length);
	for (let row = 0; row < rows; row++) {
		const to = row * wordsPerRow * 4;
		text.set(bytes.subarray(begins[row], begins[row] + lengths[row]), to);
		mask.fill(255, to, to + lengths[row]);
	}
	kept$2 = [{
		delimiter,
		decimal,
		wavelengths,
		words: littleEndian(text),
		masks: littleEndian(mask),
		wordsPerRow,
		lengths
	}, ...kept$2.slice(0, 3)];
}
function littleEndian(bytes) {
	const view = new DataView(bytes.buffer);
	return Int32Array.from({ length: bytes.length / 4 }, (_, i) => view.getInt32(4 * i, true));
}
/** Where the delimiter after a line's first cell stands. */
function cellEnd$1(bytes, start, delimiter) {
	let i = start;
	if (delimiter !== 32) while (bytes[i] !== delimiter) i++;
	else {
		while (bytes[i] === 32 || bytes[i] === 9) i++;
		while (bytes[i] !== 32 && bytes[i] !== 9) i++;
	}
	return i;
}
/**
* Reads two columns if the first is one that is kept and the second holds numbers throughout.
*
* @returns null where it is not so; then a more patient reader says what there is
*/
function readOnKnownAxis(bytes, start, format) {
	for (const axis of kept$2) {
		if (axis.delimiter !== format.delimiter || axis.decimal !== format.decimal) continue;
		const cells = new CellReader(axis.delimiter, axis.decimal);
		const values = readValuesOn(axis, bytes, start, cells);
		if (values === null) continue;
		if (axis !== kept$2[0]) kept$2 = [axis, ...kept$2.filter((other) => other !== axis)];
		return {
			wavelengths: axis.wavelengths,
			values,
			isEven: cells.isEven
		};
	}
	return null;
}
/** More bytes than a plain row has. */
var PAD = 96;
function readValuesOn(axis, bytes, start, cells) {
	const values = new Float64Array(axis.wavelengths.length);
	const reached = readRows(axis, bytes, {
		row: 0,
		at: start
	}, bytes.length - PAD, cells, values);
	if (reached === null) return null;
	const tail = new Uint8Array(bytes.length - reached.at + PAD);
	tail.set(bytes.subarray(reached.at));
	const end = tail.length - PAD;
	const last = readRows(axis, tail, {
		row: reached.row,
		at: 0
	}, end, cells, values);
	if (last === null || last.row < values.length) return null;
	let i = last.at;
	while (tail[i] === 10 || tail[i] === 13) i++;
	return i < end ? null : values;
}
/** Reads rows from one on, up to those that begin at `limit`; null at one that is not plain. */
function readRows(axis, bytes, from, limit, cells, values) {
	const { words, masks, wordsPerRow, lengths, decimal } = axis;
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
	let { row, at } = from;
	let word = row * wordsPerRow;
	let { wholes, decimals } = cells;
	for (; row < values.length && at < limit; row++) {
		if (wholes === 1 && decimals > 4) {
			({row, at} = readUnitRows(axis, bytes, view, {
				row,
				at
			}, limit, decimals, values));
			if (row >= values.length || at >= limit) break;
			word = row * wordsPerRow;
		}
		for (let k = 0; k < wordsPerRow; k++, word++) if (((view.getInt32(at + 4 * k, true) ^ words[word]) & masks[word]) !== 0) return null;
		at += lengths[row];
		while (bytes[at] === 32) at++;
		const digits = decimals > 0 && at < limit ? fixedPoint(view, at, decimal, wholes, decimals) : -1;
		if (digits >= 0) {
			values[row] = digits / TENS[decimals];
			at += wholes + 1 + decimals;
		} else {
			values[row] = cells.read(bytes, at);
			at = cells.end;
			wholes = cells.wholes;
			decimals = cells.decimals;
			if (at < 0) return null;
		}
		if (bytes[at] === 13) at++;
		if (bytes[at] === 10) at++;
	}
	return {
		row,
		at
	};
}
/**
* Reads rows whose value has one digit before the sign and as many as the row before after it, as
* most instruments write reflectance: no loop within a row. Stops at the first other row.
*/
function readUnitRows({ words, masks, wordsPerRow, lengths, decimal }, bytes, view, from, limit, decimals, values) {
	let { row, at } = from;
	if (wordsPerRow > 2) return from;
	const second = wordsPerRow - 1;
	const shift = 8 * (8 - decimals);
	const power = TENS[decimals - 4];
	const divisor = TENS[decimals];
	const rows = values.length;
	for (; row < rows && at < limit; row++) {
		const word = row * wordsPerRow;
		const differs = (view.getInt32(at, true) ^ words[word]) & masks[word] | (view.getInt32(at + 4 * second, true) ^ words[word + second]) & masks[word + second];
		const cell = at + lengths[row];
		const head = view.getUint16(cell, true);
		const first = view.getInt32(cell + 2, true) ^ ZEROS$1;
		const rest = (view.getInt32(cell + 6, true) ^ ZEROS$1) << shift;
		const whole = (head & 255) - 48;
		const others = first + OVER_NINE$1 | first | rest + OVER_NINE$1 | rest;
		if (differs !== 0 || (others & HIGH_BITS) !== 0 || head >> 8 !== decimal) break;
		if (whole < 0 || whole > 9) break;
		const end = cell + 2 + decimals;
		const byte = bytes[end];
		if (byte === 10) at = end + 1;
		else if (byte === 13) at = bytes[end + 1] === 10 ? end + 2 : end + 1;
		else break;
		values[row] = ((whole * 1e4 + fourDigits$1(first)) * power + fourDigits$1(rest)) / divisor;
	}
	return {
		row,
		at
	};
}
/** Four digits in a word of 32 bits are told and read at once. */
var ZEROS$1 = 808464432;
var OVER_NINE$1 = 101058054;
var HIGH_BITS = -252645136;
var PAIRS$1 = 16711935;
/**
* The digits of a cell such as 0.123456 as one whole number, if the cell ends the line.
*
* @param wholes how many digits before the sign
* @param decimals how many after it, 1 to 8
* @returns -1 where the cell is not written so
*/
function fixedPoint(view, at, decimal, wholes, decimals) {
	let whole = view.getUint8(at) - 48;
	let others = whole < 0 || whole > 9;
	for (let i = at + 1; i < at + wholes; i++) {
		const digit = view.getUint8(i) - 48;
		if (digit < 0 || digit > 9) others = true;
		whole = whole * 10 + digit;
	}
	const point = at + wholes;
	const end = view.getUint8(point + 1 + decimals);
	if (others || view.getUint8(point) !== decimal || end !== 13 && end !== 10) return -1;
	const word = view.getInt32(point + 1, true) ^ ZEROS$1;
	if (decimals <= 4) {
		const digits = word << 8 * (4 - decimals);
		return hasOthers(digits) ? -1 : whole * TENS[decimals] + fourDigits$1(digits);
	}
	const rest = (view.getInt32(point + 5, true) ^ ZEROS$1) << 8 * (8 - decimals);
	if (hasOthers(word) || hasOthers(rest)) return -1;
	return (whole * 1e4 + fourDigits$1(word)) * TENS[decimals - 4] + fourDigits$1(rest);
}
/** Whether a byte of a word is none of the digits 0 to 9. */
function hasOthers(word) {
	return ((word + OVER_NINE$1 | word) & HIGH_BITS) !== 0;
}
/** Four digits, the first in the lowest byte. */
function fourDigits$1(word) {
	const pairs = Math.imul(word, 10) + (word >>> 8) & PAIRS$1;
	return Math.imul(pairs, 100) + (pairs >>> 16) & 65535;
}
/** Reads the last cell of a line, however its number is written. */
var CellReader = class {
	delimiter;
	decimal;
	/** Where the line of the last cell ends; -1 where it held no number. */
	end = 0;
	/** How `fixedPoint` may read the next cell: as the last that was written so; 0 where none was. */
	wholes = 0;
	decimals = 0;
	/** How many cells were not as the one before. */
	#turns = 0;
	constructor(delimiter, decimal) {
		this.delimiter = delimiter;
		this.decimal = decimal;
	}
	/** Whether all cells were written as the first, with one digit before the sign. */
	get isEven() {
		return this.#turns === 1 && this.wholes === 1;
	}
	/** The number from `start` to the line's end, blanks around it allowed; a gap is NaN. */
	read(bytes, start) {
		this.#turns++;
		let end = start;
		while (bytes[end] !== 13 && bytes[end] !== 10 && bytes[end] > 0) end++;
		const value = parseNumber(bytes, start, end, this.decimal);
		const isOneCell = this.delimiter === 32 || !hasByte(bytes, start, end, this.delimiter);
		this.end = isOneCell && !Number.isNaN(value) ? end : -1;
		let point = start;
		while (point < end && bytes[point] !== this.decimal) point++;
		const decimals = end - point - 1;
		if (point > start && point - start <= 5 && decimals >= 1 && decimals <= 8) {
			this.wholes = point - start;
			this.decimals = decimals;
		}
		return isDeleted(value) ? NaN : value;
	}
};
function hasByte(bytes, start, end, byte) {
	for (let i = start; i < end; i++) if (bytes[i] === byte) return true;
	return false;
}
// ../../work/wt-reader/src/readers/stencil.ts
/** A longer body is no scan of an instrument's. */
var MOST_BYTES$6 = 2e6;
/** Of a digit's byte the upper four bits are the same for all ten digits. */
var DIGIT = 240;
var MOST_DECIMALS = 8;
/**
* Cuts the stencil of a body that was read in two columns, a row a line.
*
* @param start where the first row begins
* @param wavelengths what the first column says
* @returns null where a value is not written as one digit, the sign and as many digits as the others
*/
function cutStencil(bytes, start, format, wavelengths) {
	const { delimiter, decimal } = format;
	const length = bytes.length - start;
	if (length < 4 || length > MOST_BYTES$6 || delimiter === decimal) return null;
	const body = bytes.subarray(start);
	const cells = new Int32Array(wavelengths.length);
	const bits = new Uint8Array(length).fill(255);
	let decimals = 0;
	for (let row = 0, at = 0; row < cells.length; row++) {
		const end = lineEnd(body, at);
		const cell = unitCell(body, at, end, format);
		if (row === 0) decimals = end - cell - 2;
		if (cell <= at || end - cell - 2 !== decimals || decimals > MOST_DECIMALS) return null;
		bits[cell] = DIGIT;
		bits.fill(DIGIT, cell + 2, end);
		cells[row] = cell;
		at = nextLine(body, end);
	}
	return {
		delimiter,
		decimal,
		length,
		words: wordsOf$1(body),
		fixed: wordsOf$1(bits),
		cells,
		decimals,
		wavelengths
	};
}
/** The last stencils, the newest first. They change how fast a file is read, never its numbers. */
var kept$1 = [];
/** Keeps the stencil of a body, if it has one. Parameters as in `cutStencil`. */
function keepStencil(bytes, start, format, wavelengths) {
	const stencil = cutStencil(bytes, start, format, wavelengths);
	if (stencil === null) return void 0;
	kept$1 = [stencil, ...kept$1.slice(0, 3)];
	return stencil;
}
/** Reads two columns if they fit a stencil that is kept; null where they do not. */
function readByStencil(bytes, start, { delimiter, decimal }) {
	for (const stencil of kept$1) {
		if (stencil.delimiter !== delimiter || stencil.decimal !== decimal) continue;
		if (bytes.length - start !== stencil.length) continue;
		const values = new Float64Array(stencil.cells.length);
		if (readThrough(stencil, bytes, start, values)) return {
			stencil,
			values
		};
	}
	return null;
}
/** Where the value of a line begins that is one digit, the sign and digits up to its end; or -1. */
function unitCell(body, start, end, { delimiter, decimal }) {
	let i = end;
	while (i > start && isDigit(body[i - 1])) i--;
	const cell = i - 2;
	return i < end && cell > start && body[i - 1] === decimal && isDigit(body[cell]) && (body[cell - 1] === delimiter || isSpace(body[cell - 1])) ? cell : -1;
}
function isDigit(byte) {
	return byte >= 48 && byte <= 57;
}
/** Words of four bytes from the first byte on, and one more that ends with the last byte. */
function wordsOf$1(bytes) {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
	const count = bytes.length >> 2;
	const words = new Int32Array(count + 1);
	for (let i = 0; i < count; i++) words[i] = view.getInt32(4 * i, true);
	words[count] = view.getInt32(bytes.length - 4, true);
	return words;
}
/**
* Reads the values of a body through a stencil.
*
* @param values takes a value a row, each correctly rounded
* @returns whether the body fits; where it does not, `values` hold nothing of use
*/
function readThrough(stencil, bytes, start, values) {
	if (start < 0 || bytes.length - start !== stencil.length) return false;
	const view = new DataView(bytes.buffer, bytes.byteOffset + start, stencil.length);
	if (!fits(stencil, view)) return false;
	const rows = readDigits(stencil, view, values);
	return rows >= 0 && readLast(stencil, bytes.subarray(start), rows, values);
}
/** Whether all that stays the same is the same. */
function fits({ words, fixed, length }, view) {
	const count = words.length - 1;
	for (let word = 0; word < count; word++) if (((view.getInt32(4 * word, true) ^ words[word]) & fixed[word]) !== 0) return false;
	return ((view.getInt32(length - 4, true) ^ words[count]) & fixed[count]) === 0;
}
/** Four digits in a word of 32 bits are told and read at once. */
var ZEROS = 808464432;
var OVER_NINE = 101058054;
var UPPER_BITS = -252645136;
var PAIRS = 16711935;
/**
* The values of a body whose digits have the upper bits of digits. Read as a whole number of eight
* decimals, which is exact, and divided once, each is correctly rounded (`numbers.ts`).
*
* @returns how many rows were read, all but the last few; -1 where a lower half is no digit's
*/
function readDigits({ cells, decimals, length }, view, values) {
	const firstMask = maskOf(Math.min(decimals, 4));
	const restMask = maskOf(Math.max(decimals - 4, 0));
	let rows = cells.length;
	while (rows > 0 && cells[rows - 1] + 10 > length) rows--;
	let over = 0;
	for (let row = 0; row < rows; row++) {
		const cell = cells[row];
		const whole = view.getUint8(cell) - 48;
		const first = (view.getInt32(cell + 2, true) ^ ZEROS) & firstMask;
		const rest = (view.getInt32(cell + 6, true) ^ ZEROS) & restMask;
		over |= whole + 6 | first + OVER_NINE | rest + OVER_NINE;
		values[row] = (whole * 1e8 + fourDigits(first) * 1e4 + fourDigits(rest)) / 1e8;
	}
	return (over & UPPER_BITS) === 0 ? rows : -1;
}
/** Reads the rows that end too near the file's end for whole words. */
function readLast({ cells, decimals, decimal }, body, from, values) {
	for (let row = from; row < cells.length; row++) {
		const cell = cells[row];
		values[row] = parseNumber(body, cell, cell + 2 + decimals, decimal);
		if (Number.isNaN(values[row])) return false;
	}
	return true;
}
/** The bits of a word's first bytes. */
function maskOf(bytes) {
	return bytes >= 4 ? -1 : (1 << 8 * bytes) - 1;
}
/** Four digits, the first in the lowest byte. */
function fourDigits(word) {
	const pairs = Math.imul(word, 10) + (word >>> 8) & PAIRS;
	return Math.imul(pairs, 100) + (pairs >>> 16) & 65535;
}
// ../../work/wt-reader/src/readers/two-columns.ts
var NO_FAULTS = /* @__PURE__ */ new Map();
/** Digits of which an integer is exact in 32 bits. */
var SHORT$1 = 9;
/**
* Two columns of plain numbers, by comparing the first column with those of files before and
* else by reading both.
*
* @returns null at the first thing that is not plain (then the careful way says what it is)
*/
function readTwoColumns(bytes, start, firstLine, format) {
	const through = readByStencil(bytes, start, format);
	if (through !== null) {
		const { stencil, values } = through;
		return {
			...bodyOf(stencil.wavelengths, values, firstLine),
			stencil
		};
	}
	const known = readOnKnownAxis(bytes, start, format);
	if (known !== null) {
		const { wavelengths, values, isEven } = known;
		const stencil = isEven ? keepStencil(bytes, start, format, wavelengths) : void 0;
		return {
			...bodyOf(wavelengths, values, firstLine),
			stencil
		};
	}
	const pairs = readPairs(bytes, start, format);
	if (pairs === null) return null;
	const rows = pairs.length >> 1;
	const first = new Float64Array(rows);
	const second = new Float64Array(rows);
	for (let row = 0; row < rows; row++) {
		first[row] = pairs[2 * row];
		second[row] = pairs[2 * row + 1];
	}
	keepAxis(bytes, start, format, first);
	const stencil = keepStencil(bytes, start, format, first);
	return {
		...bodyOf(first, second, firstLine),
		stencil
	};
}
/**
* The numbers of two columns, row by row, in one pass over the bytes. Up to nine digits gather in a 32-bit
* integer and up to nine more in a second; the arithmetic is exact as in `parseNumber`, which
* reads the numbers that are longer.
*
* @returns null at the first thing that is not plain
*/
function readPairs(bytes, start, format) {
	const { delimiter, decimal } = format;
	const length = bytes.length;
	const tens = TENS;
	const short = SHORT$1;
	const between = delimiter === 9 ? 32 : 9;
	const firstLength = nextLine(bytes, lineEnd(bytes, start)) - start;
	const capacity = Math.ceil(1.2 * (length - start) / Math.max(4, firstLength)) + 64;
	const numbers = new Growing(2 * Math.min(capacity, MOST_ROWS$1 + 64));
	let values = numbers.values;
	let count = 0;
	let i = start;
	while (i < length) {
		if (count + 2 > values.length) {
			if (count > 1e6) return null;
			values = numbers.grow();
		}
		for (let column = 0; column < 2; column++) {
			while (bytes[i] === 32 || bytes[i] === between) i++;
			const cell = i;
			let byte = bytes[i];
			const negative = byte === 45;
			if (negative || byte === 43) byte = bytes[++i];
			let head = 0;
			let tail = 0;
			let digits = 0;
			let tailDigits = 0;
			let scale = 0;
			let digit = byte - 48;
			while (digit >= 0 && digit <= 9) {
				head = head * 10 + digit | 0;
				digits++;
				digit = bytes[++i] - 48;
			}
			if (digits > short) digits = 99;
			if (bytes[i] === decimal && decimal !== delimiter) {
				const point = i++;
				digit = bytes[i] - 48;
				while (digit >= 0 && digit <= 9 && digits < short) {
					head = head * 10 + digit | 0;
					digits++;
					digit = bytes[++i] - 48;
				}
				while (digit >= 0 && digit <= 9) {
					tail = tail * 10 + digit | 0;
					tailDigits++;
					digit = bytes[++i] - 48;
				}
				scale = point + 1 - i;
				if (decimal === 44 && scale === 0) return null;
			}
			if (digits + tailDigits === 0) return null;
			byte = bytes[i];
			if (byte === 101 || byte === 69) {
				byte = bytes[++i];
				const below = byte === 45;
				if (below || byte === 43) byte = bytes[++i];
				const exponentStart = i;
				let exponent = 0;
				digit = byte - 48;
				while (digit >= 0 && digit <= 9) {
					exponent = exponent * 10 + digit | 0;
					digit = bytes[++i] - 48;
				}
				if (i === exponentStart || i - exponentStart > 3) return null;
				scale += below ? -exponent : exponent;
			}
			let value;
			if (digits + tailDigits <= 15 && scale >= -22 && scale <= 22) {
				const mantissa = tailDigits === 0 ? head : head * tens[tailDigits] + tail;
				value = scale < 0 ? mantissa / tens[-scale] : mantissa * tens[scale];
				if (negative) value = -value;
			} else {
				value = parseNumber(bytes, cell, i, decimal);
				if (Number.isNaN(value)) return null;
			}
			if (value <= -999 && isDeleted(value)) value = NaN;
			values[count++] = value;
			while (bytes[i] === 32 || bytes[i] === between) i++;
			if (column === 0) {
				if (delimiter === 32) {
					if (bytes[i - 1] !== 32 && bytes[i - 1] !== 9) return null;
				} else if (bytes[i++] !== delimiter) return null;
			}
		}
		if (i >= length) break;
		if (bytes[i] === 13) i += bytes[i + 1] === 10 ? 2 : 1;
		else if (bytes[i] === 10) i++;
		else return null;
		if (bytes[i] === 10 || bytes[i] === 13) {
			while (bytes[i] === 10 || bytes[i] === 13) i++;
			if (i < length) return null;
		}
	}
	return values.subarray(0, count);
}
/** Numbers of unknown count. */
var Growing = class {
	values;
	constructor(capacity) {
		this.values = new Float64Array(capacity);
	}
	grow() {
		const more = new Float64Array(this.values.length * 2);
		more.set(this.values);
		this.values = more;
		return more;
	}
};
/** The last body's lines: files alike share them. */
var lastLines = /* @__PURE__ */ new Int32Array(0);
function linesFrom(firstLine, rows) {
	if (lastLines.length !== rows || lastLines[0] !== firstLine) {
		const lines = new Int32Array(rows);
		for (let row = 0; row < rows; row++) lines[row] = firstLine + row;
		lastLines = lines;
	}
	return lastLines;
}
/** Two columns as the body of a table whose rows stand on consecutive lines. */
function bodyOf(first, second, firstLine) {
	const lines = linesFrom(firstLine, first.length);
	return {
		columns: [first, second],
		lines,
		rowFault: null,
		cellFaults: NO_FAULTS
	};
}
// ../../work/wt-reader/src/readers/body.ts
/** Bytes that begin a comment among rows of numbers. */
var COMMENTS = /* @__PURE__ */ new Set([
	35,
	37,
	33
]);
/** Reads rows from `start` to the end. A row with a wrong number of cells ends it, or one too many. */
function readBody(bytes, start, firstLine, format) {
	return (format.columns === 2 ? readTwoColumns(bytes, start, firstLine, format) : null) ?? readAnyColumns(bytes, start, firstLine, format);
}
function readAnyColumns(bytes, start, firstLine, format) {
	const { columns, decimal } = format;
	const cells = new CellSplitter();
	const cellFaults = /* @__PURE__ */ new Map();
	let rowFault = null;
	let values = Array.from({ length: columns }, () => /* @__PURE__ */ new Float64Array(256));
	let lines = /* @__PURE__ */ new Int32Array(256);
	let rows = 0;
	let line = firstLine;
	for (let at = start; at < bytes.length; line++) {
		const end = lineEnd(bytes, at);
		const isLast = end >= bytes.length;
		if (!isBlank(bytes, at, end) && !COMMENTS.has(bytes[at])) {
			const found = countCells(cells, bytes, at, end, format);
			if (found !== columns || rows === 5e5) {
				rowFault = {
					line,
					kind: found < 0 ? "long" : found === columns ? "many" : "cells",
					start: at,
					end,
					found,
					column: -1,
					isLast
				};
				break;
			}
			if (rows === lines.length) {
				values = values.map((column) => grown(column));
				const more = new Int32Array(rows * 2);
				more.set(lines);
				lines = more;
			}
			for (let c = 0; c < columns; c++) {
				const from = cells.starts[c];
				const to = cells.ends[c];
				let value = parseNumber(bytes, from, to, decimal);
				if (isDeleted(value)) value = NaN;
				else if (Number.isNaN(value) && !cellFaults.has(c) && !isGapMark(bytes, from, to)) {
					const fault = {
						line,
						start: from,
						end: to,
						found,
						column: c,
						isLast
					};
					cellFaults.set(c, {
						...fault,
						kind: "not a number"
					});
				}
				values[c][rows] = value;
			}
			lines[rows++] = line;
		}
		at = nextLine(bytes, end);
	}
	return {
		columns: values.map((column) => column.slice(0, rows)),
		lines: lines.slice(0, rows),
		rowFault,
		cellFaults
	};
}
/** The cells of a line; -1 for a line beyond reason. An empty last cell that ends the file is cut off. */
function countCells(cells, bytes, start, end, format) {
	if (end - start > 1e6) return -1;
	const found = cells.split(bytes, start, end, format.delimiter);
	const last = format.columns - 1;
	return end >= bytes.length && found === last + 1 && cells.ends[last] === end && last > 0 && cells.starts[last] === end ? found - 1 : found;
}
/** A column with room for twice as many rows. */
function grown(column) {
	const more = new Float64Array(column.length * 2);
	more.set(column);
	return more;
}
/** The decimal sign as a character. */
function decimalSign(decimal) {
	return decimal === 44 ? "," : ".";
}
/** The byte of a decimal sign. */
function decimalByte(sign) {
	return sign === "," ? 44 : 46;
}
// ../../work/wt-reader/src/readers/decode.ts
var SNIFFED = 4096;
/**
* Text as UTF-8 bytes: a byte order mark decides, else the pattern of NUL bytes tells UTF-16,
* else what is valid UTF-8 is UTF-8 and the rest Windows-1252 (WHATWG Encoding Standard).
*
* @param said the encoding where a person has said so
* @returns null where NUL bytes among the first 4096 show that it is no text.
*/
function decodeText(bytes, said) {
	if (said !== void 0) return decodeAs(bytes, said);
	if (bytes[0] === 239 && bytes[1] === 187 && bytes[2] === 191) return utf8OrWindows(bytes.subarray(3));
	const hasNul = bytes.subarray(0, SNIFFED).includes(0);
	const wide = hasNul || bytes[0] >= 254 ? utf16Order(bytes) : null;
	if (wide !== null) return fromLabel(bytes, wide, "UTF-16");
	if (hasNul) return null;
	return utf8OrWindows(bytes);
}
function decodeAs(bytes, encoding) {
	if (encoding === "Windows-1252") return fromLabel(bytes, "windows-1252", encoding);
	if (encoding === "UTF-16") return fromLabel(bytes, utf16Order(bytes) ?? "utf-16le", encoding);
	return fromLabel(bytes, "utf-8", encoding);
}
/** The byte order of UTF-16, or null. Without a mark, every other byte of Latin text is NUL. */
function utf16Order(bytes) {
	if (bytes[0] === 255 && bytes[1] === 254) return "utf-16le";
	if (bytes[0] === 254 && bytes[1] === 255) return "utf-16be";
	const pairs = Math.min(bytes.length, SNIFFED) >> 1;
	if (pairs < 4) return null;
	let first = 0;
	let second = 0;
	for (let i = 0; i < pairs; i++) {
		if (bytes[2 * i] === 0) first++;
		if (bytes[2 * i + 1] === 0) second++;
	}
	if (second > .8 * pairs && first < .05 * pairs) return "utf-16le";
	if (first > .8 * pairs && second < .05 * pairs) return "utf-16be";
	return null;
}
function utf8OrWindows(bytes) {
	if (isAscii(bytes)) return {
		bytes,
		encoding: "UTF-8"
	};
	try {
		new TextDecoder("utf-8", { fatal: true }).decode(bytes);
		return {
			bytes,
			encoding: "UTF-8"
		};
	} catch {
		return fromLabel(bytes, "windows-1252", "Windows-1252");
	}
}
/** Whether no byte is above 127, sixteen at a time. */
function isAscii(bytes) {
	const ahead = Math.min(bytes.length, 4 - (bytes.byteOffset & 3) & 3);
	for (let i = 0; i < ahead; i++) if (bytes[i] > 127) return false;
	const count = bytes.length - ahead >> 2;
	if (count === 0) return !bytes.some((byte) => byte > 127);
	const words = new Int32Array(bytes.buffer, bytes.byteOffset + ahead, count);
	const whole = count - (count & 3);
	for (let i = 0; i < whole; i += 4) if (((words[i] | words[i + 1] | words[i + 2] | words[i + 3]) & 2155905152) !== 0) return false;
	for (let i = whole; i < count; i++) if ((words[i] & 2155905152) !== 0) return false;
	for (let i = ahead + 4 * count; i < bytes.length; i++) if (bytes[i] > 127) return false;
	return true;
}
function fromLabel(bytes, label, encoding) {
	return {
		bytes: new TextEncoder().encode(new TextDecoder(label).decode(bytes)),
		encoding
	};
}
var decoder = new TextDecoder("utf-8");
/** Up to as many bytes are made a text one by one, which is faster than asking the platform. */
var SHORT = 64;
/** A stretch of UTF-8 bytes as trimmed NFC text. */
function textOf$1(bytes, start, end) {
	if (end - start <= SHORT) {
		let text = "";
		let i = start;
		for (; i < end && bytes[i] < 128; i++) text += String.fromCharCode(bytes[i]);
		if (i >= end) return text.trim();
	}
	return untrimmedTextOf(bytes, start, end).trim();
}
/** The same with what blanks and tabs stand around it: a tab at the beginning ends an empty cell. */
function untrimmedTextOf(bytes, start, end) {
	return decoder.decode(bytes.subarray(start, end)).normalize("NFC");
}
// ../../work/wt-reader/src/readers/head.ts
/** The first lines of a text: where its numbers begin, what stands between cells, the decimal sign. */
var MOST_LINES = 3e3;
var MOST_BYTES$5 = 2e6;
/** Lines that are looked at to tell how cells are written. */
var SAMPLE$1 = 12;
/** Reads lines until the numbers have begun, or 3000 lines or 2 MB have passed. */
function readHead(bytes) {
	const lines = [];
	let numeric = -1;
	let run = 0;
	let number = 1;
	for (let start = 0; start < bytes.length; number++) {
		const end = lineEnd(bytes, start, start + LONGEST_LINE + 1);
		if (end - start > 1e6) return {
			lines,
			numeric,
			tooLong: number
		};
		if (!isBlank(bytes, start, end)) {
			lines.push({
				start,
				end,
				number
			});
			run = looksNumeric(bytes, start, end) ? run + 1 : 0;
			if (run === 3 && numeric < 0) numeric = lines.length - 3;
		}
		if (numeric >= 0 && lines.length >= numeric + SAMPLE$1) break;
		if (lines.length >= MOST_LINES || end > MOST_BYTES$5) break;
		start = nextLine(bytes, end);
	}
	if (numeric < 0 && run > 0 && lines.length < MOST_LINES) numeric = lines.length - run;
	return {
		lines,
		numeric,
		tooLong: null
	};
}
/** Bytes of numbers, of what stands between them, and of `NaN` and `NA`. */
var NUMERIC = /* @__PURE__ */ new Uint8Array(256);
for (const character of "0123456789+-.,; 	\"eEnNaA") NUMERIC[character.charCodeAt(0)] = 1;
/** Whether a line holds nothing but numbers, gaps and what stands between them. */
function looksNumeric(bytes, start, end) {
	let digits = 0;
	for (let i = start; i < end; i++) {
		const byte = bytes[i];
		if (NUMERIC[byte] === 0) return false;
		if (byte >= 48 && byte <= 57) digits++;
	}
	return digits > 0;
}
var CANDIDATES = [
	[9, 46],
	[9, 44],
	[59, 46],
	[59, 44],
	[44, 46],
	[44, 44],
	[32, 46],
	[32, 44]
];
/**
* How cells are written in lines of numbers: the delimiter and decimal sign under which the
* most cells are numbers in lines of equal length. The first of equals wins, in the order tab,
* semicolon, comma, blanks, and a point before a comma.
*/
function numericFormat(bytes, lines, decimal) {
	const cells = new CellSplitter();
	let best = {
		delimiter: 0,
		decimal: decimal ?? 46,
		columns: 1
	};
	let bestScore = 0;
	const present = bytesIn(bytes, lines);
	for (const [delimiter, sign] of CANDIDATES) {
		if (decimal !== void 0 && sign !== decimal) continue;
		if ((delimiter === 32 ? present[32] + present[9] : present[delimiter]) === 0 || decimal === void 0 && sign === 44 && present[44] === 0) continue;
		const { score, columns } = rate(bytes, lines, cells, delimiter, sign);
		if (columns > 1 && score > bestScore + 1e-9) {
			bestScore = score;
			best = {
				delimiter,
				decimal: sign,
				columns
			};
		}
		if (bestScore === 1) break;
	}
	return isOneColumnWithCommas(bytes, lines, best) ? {
		delimiter: 0,
		decimal: 44,
		columns: 1
	} : best;
}
/** Which bytes occur in some lines: 1 at their place, else 0. */
function bytesIn(bytes, lines) {
	const present = /* @__PURE__ */ new Uint8Array(256);
	for (const { start, end } of lines) for (let i = start; i < end; i++) present[bytes[i]] = 1;
	return present;
}
/** The share of cells that are numbers, times the share of lines with the commonest count of cells. */
function rate(bytes, lines, cells, delimiter, decimal) {
	const counts = /* @__PURE__ */ new Map();
	let numbers = 0;
	let all = 0;
	for (const { start, end } of lines) {
		const count = cells.split(bytes, start, end, delimiter);
		counts.set(count, (counts.get(count) ?? 0) + 1);
		all += count;
		for (let c = 0; c < count; c++) {
			const value = parseNumber(bytes, cells.starts[c], cells.ends[c], decimal);
			if (!Number.isNaN(value) || isGapMark(bytes, cells.starts[c], cells.ends[c])) numbers++;
		}
	}
	let columns = 1;
	let most = 0;
	for (const [count, times] of counts) if (times > most || times === most && count > columns) {
		most = times;
		columns = count;
	}
	return {
		score: numbers / Math.max(1, all) * (most / Math.max(1, lines.length)),
		columns
	};
}
/** Lines such as `0,123`: read as two columns, the first would hardly change. */
function isOneColumnWithCommas(bytes, lines, format) {
	if (format.delimiter !== 44 || format.columns !== 2 || lines.length < 3) return false;
	let previous = NaN;
	let turns = false;
	for (const { start, end } of lines) {
		let comma = start;
		while (comma < end && bytes[comma] !== 44) comma++;
		const first = parseNumber(bytes, start, comma, 46);
		for (let i = start; i < end; i++) if (bytes[i] === 46 || bytes[i] === 34) return false;
		if (!Number.isInteger(first) || isSpace(bytes[comma + 1])) return false;
		if (first === previous) turns = true;
		previous = first;
	}
	return turns && Math.abs(previous) < 100;
}
/**
* How cells are written in lines of text: the delimiter under which most lines, from some line
* on, have the same number of cells, and that line's index.
*
* @returns null where no delimiter gives two lines of two cells or more
*/
function textFormat(bytes, lines) {
	const cells = new CellSplitter();
	let best = null;
	let bestRun = 1;
	for (const delimiter of [
		9,
		59,
		44,
		32
	]) {
		const run = longestRun(lines.map(({ start, end }) => cells.split(bytes, start, end, delimiter)));
		const isProse = best !== null || run.length < 3 || run.first + run.length < lines.length;
		if (run.columns < 2 || delimiter === 32 && isProse) continue;
		if (run.length > bestRun) {
			bestRun = run.length;
			best = {
				delimiter,
				decimal: 46,
				columns: run.columns,
				first: run.first
			};
		}
	}
	return best;
}
/** The longest run of equal counts above 1. */
function longestRun(counts) {
	let best = {
		first: 0,
		length: 0,
		columns: 1
	};
	for (let first = 0; first < counts.length;) {
		let end = first + 1;
		while (end < counts.length && counts[end] === counts[first]) end++;
		if (counts[first] > 1 && end - first > best.length) best = {
			first,
			length: end - first,
			columns: counts[first]
		};
		first = end;
	}
	return best;
}
// ../../work/wt-reader/src/readers/remembering.ts
/** Remembers what a function made of short texts: those of files alike are the same few. */
var MOST = 1e3;
var LONGEST$1 = 200;
/** The function, which no longer works a short text out twice. `make` must depend on nothing else. */
function remembering(make) {
	const known = /* @__PURE__ */ new Map();
	return (text) => {
		if (text.length > LONGEST$1) return make(text);
		let entry = known.get(text);
		if (entry === void 0) {
			entry = { made: make(text) };
			if (known.size >= MOST) known.clear();
			known.set(text, entry);
		}
		return entry.made;
	};
}
/** Reflectance a unit: what a white panel reads. */
var FULL_SCALE = {
	fraction: 1,
	percent: 100,
	"per 10000": 1e4
};
/** The wavelength unit that a heading or a header line names, or null. */
var namedWavelengthUnit = remembering((text) => {
	if (/cm\s*(?:\^?\s*-\s*1|⁻¹|-1)|1\/cm|wave\s*-?number/iu.test(text)) return "cm⁻¹";
	if (/[µμ]m|\bum\b|\(um|_um\b|micron|micromet/iu.test(text)) return "µm";
	if (/nm\b|nanom/iu.test(text)) return "nm";
	return null;
});
/**
* The unit of an axis that rises or falls throughout: the one named, unless its numbers cannot be in that unit; else by size.
* Below 100 they are micrometres, from 3000 up alone wavenumbers, else nanometres.
*/
function decideWavelengthUnit(axis, named) {
	const ends = [axis[0], axis[axis.length - 1]];
	const low = Math.min(...ends);
	const high = Math.max(...ends);
	const sized = unitBySize(axis, low, high);
	const range = `${short(low)} to ${short(high)}`;
	if (named === null) return {
		unit: sized,
		reason: `wavelengths of ${range} are in ${sized}`
	};
	return (named === "µm" ? high <= 100 : low >= 100) ? {
		unit: named,
		reason: `the header says ${named}`
	} : {
		unit: sized,
		reason: `the header says ${named}, but ${range} can only be ${sized}`
	};
}
function unitBySize(axis, low, high) {
	if (high <= 100) return "µm";
	const descending = axis.length > 1 && axis[0] > axis[axis.length - 1];
	return low >= 3e3 || descending && high > 3300 ? "cm⁻¹" : "nm";
}
function extremes(values) {
	let low = Infinity;
	let high = -Infinity;
	for (let i = 0; i < values.length; i++) {
		const value = values[i];
		if (value < low) low = value;
		if (value > high) high = value;
	}
	return [low, high];
}
/** A wavelength in nm, to a millionth of a nm where it has to be computed. */
function toNanometres(value, unit) {
	if (unit === "nm") return value;
	return Math.round((unit === "µm" ? value * 1e3 : 1e7 / value) * 1e6) / 1e6;
}
/** The unit of reflectance that a heading or header line names, or null. */
var namedReflectanceUnit = remembering((text) => {
	if (/10[ ,.]?000|1e4/iu.test(text)) return "per 10000";
	if (/%|percent|per cent|\bpct\b/iu.test(text)) return "percent";
	if (/fraction|\b0\s*-\s*1\b/iu.test(text)) return "fraction";
	return null;
});
/**
* The unit of reflectance from the 95th percentile of all values of a file, which neither a
* noisy channel nor a dark rock moves far: up to 2 is a fraction, up to 250 percent, up to
* 20,000 ten-thousandths. A named unit counts unless the values cannot be in it: no rock is
* as dark as 1 % throughout.
*
* @returns null where the values are too large for any reflectance
*/
function decideReflectanceUnit(sample, named) {
	const high = quantile(sample, .95);
	const figure = `95 % of the values are at most ${short(high)}`;
	if (named === "percent" && high > 1 && high <= 400) return {
		unit: "percent",
		reason: "the header says percent"
	};
	if (named === "per 10000" && high > 20 && high <= 4e4) return {
		unit: "per 10000",
		reason: "the header says 10000 is white"
	};
	if (named === "fraction" && high <= 10) return {
		unit: "fraction",
		reason: "the header says fraction"
	};
	if (high <= 2) return {
		unit: "fraction",
		reason: `${figure}: fractions`
	};
	if (high <= 250) return {
		unit: "percent",
		reason: `${figure}: percent`
	};
	if (high <= 2e4) return {
		unit: "per 10000",
		reason: `${figure}: ten-thousandths`
	};
	return null;
}
/** A quantile of the numbers that are not NaN, the lower of two neighbours; NaN of none. */
function quantile(values, part) {
	const work = new Float64Array(values.length);
	let count = 0;
	for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) work[count++] = values[i];
	return count === 0 ? NaN : ranked(work.subarray(0, count), Math.floor(part * (count - 1)));
}
/** The value of a rank, 0 the least, by selection (Hoare 1961, Commun. ACM 4, 321); reorders. */
function ranked(values, rank) {
	let low = 0;
	let high = values.length - 1;
	while (low < high) {
		const pivot = values[low + high >> 1];
		let i = low;
		let j = high;
		while (i <= j) {
			while (values[i] < pivot) i++;
			while (values[j] > pivot) j--;
			if (i <= j) {
				const swapped = values[i];
				values[i++] = values[j];
				values[j--] = swapped;
			}
		}
		if (rank <= j) high = j;
		else if (rank >= i) low = i;
		else return values[rank];
	}
	return values[rank];
}
/** A number for a sentence: at most six significant digits. */
function short(value) {
	return String(Number(value.toPrecision(6)));
}
/** Whether wavelengths are above 0 and rise or fall throughout. */
function isOrdered(axis) {
	const last = axis.length - 1;
	const sign = axis[last] > axis[0] ? 1 : -1;
	if (!(axis[0] > 0 && axis[last] > 0)) return false;
	for (let i = 1; i <= last; i++) if (!((axis[i] - axis[i - 1]) * sign > 0)) return false;
	return true;
}
/** How the words of a fault begin that detectors which overlap may explain. */
var RUN_BACK = "wavelengths run back from";
/**
* What is wrong with an axis in the file's own unit, as a sentence, or null when it rises or
* falls throughout. `lineOf` names the place of a channel.
*/
function axisFault(axis, lineOf) {
	if (axis.length < 10) return {
		problem: `${axis.length === 1 ? "only one wavelength" : `only ${axis.length} wavelengths`}; a scan needs at least 10`,
		channel: 0
	};
	if (isOrdered(axis)) return null;
	const [low, high] = extremes(axis);
	if (low === high) return {
		problem: `every row has the same wavelength, ${short(low)}`,
		channel: 1
	};
	if (low <= 0) return {
		problem: `a wavelength of ${short(low)}`,
		channel: axis.indexOf(low)
	};
	const sign = axis[axis.length - 1] > axis[0] ? 1 : -1;
	for (let i = 1; i < axis.length; i++) {
		const step = (axis[i] - axis[i - 1]) * sign;
		if (step > 0) continue;
		const at = short(axis[i]);
		return step === 0 ? {
			problem: `the wavelength ${at} stands twice (${lineOf(i - 1)} and ${lineOf(i)})`,
			channel: i
		} : {
			problem: `${RUN_BACK} ${short(axis[i - 1])} to ${at} at ${lineOf(i)}`,
			channel: i
		};
	}
	return null;
}
// ../../work/wt-reader/src/readers/companions.ts
/**
* The public library layout: a record holds one value a line under a title, and its wavelengths
* and channel widths stand in files of their own (Kokaly et al. 2017, USGS Data Series 1035).
*/
/** Larger than a companion of a million channels. */
var MOST_BYTES$4 = 2e7;
/** Whatever among the files is an axis or a list of channel widths. Others cost a look at their head. */
function collectCompanions(files) {
	const axes = [];
	const bandwidths = [];
	for (const file of files) {
		if (file.bytes.length > MOST_BYTES$4) continue;
		const column = valueColumn(file.bytes);
		const kind = column === null ? null : companionKind(column);
		if (column === null || kind === null) continue;
		const companion = toCompanion(file.path, column, kind);
		if (kind === "axis") axes.push(companion);
		else bandwidths.push(companion);
	}
	return {
		axes,
		bandwidths
	};
}
/** The one column of a file that has no more, or null. */
function valueColumn(original) {
	const bytes = decodeText(original)?.bytes;
	if (bytes === void 0) return null;
	const head = readHead(bytes);
	if (head.tooLong !== null || head.numeric < 0) return null;
	const format = numericFormat(bytes, head.lines.slice(head.numeric));
	return format.columns === 1 ? readValueColumn(bytes, head, format) : null;
}
/** Reads one value a line from where the head's numbers begin. */
function readValueColumn(bytes, head, format) {
	const first = head.lines[head.numeric];
	const title = head.lines.slice(0, head.numeric).map((line) => textOf$1(bytes, line.start, line.end)).join(" ").replace(/\s+/g, " ");
	const body = readBody(bytes, first.start, first.number, format);
	return {
		title,
		body,
		values: body.columns[0]
	};
}
/**
* Whether a column of values is an axis or channel widths rather than a record: an axis rises or
* falls throughout and reaches beyond any reflectance; widths are told by their title.
*/
function companionKind(column) {
	const { body, title, values } = column;
	if (body.rowFault !== null || body.cellFaults.size > 0 || values.length < 10) return null;
	if (/band\s*-?pass|band\s*-?width|fwhm|channel width/iu.test(title)) return values.every((value) => value > 0) ? "bandwidth" : null;
	if (axisFault(values, String) !== null) return null;
	const high = Math.max(values[0], values[values.length - 1]);
	const low = Math.min(values[0], values[values.length - 1]);
	const named = /wave\s*-?lengths?|microns?|nanomet/iu.test(title);
	return (high <= 100 ? low >= .1 : low >= 100 && high <= 1e5) && (named || high > 1.6) ? "axis" : null;
}
function toCompanion(file, column, kind) {
	const unit = column.values.reduce((most, value) => Math.max(most, value), -Infinity) <= (kind === "axis" ? 100 : 1) ? "µm" : "nm";
	return {
		file,
		title: column.title,
		values: column.values.map((value) => toNanometres(value, unit))
	};
}
/**
* The companion for a record of `channels` values: in the record's folder, else in the nearest
* folder above that has one of as many channels. Of several there, the one with the longest word
* of its title that begins a word of the record's name (an instrument's code) is taken.
*
* @param record the record's path, and its title
* @returns null where there is none, or where several differ and no word tells them apart
*/
function companionFor(candidates, record, channels) {
	const name = `${record.path.slice(record.path.lastIndexOf("/") + 1)} ${record.title}`;
	for (const folder of foldersUp(record.path)) {
		const here = candidates.filter(({ file, values }) => values.length === channels && folderOf(file) === folder);
		if (here.length > 0) return bestNamed(here, name);
	}
	return null;
}
function bestNamed(candidates, record) {
	const words = wordsOf(record);
	const inAll = candidates.map(companionWords).reduce((common, each) => new Set([...common].filter((word) => each.has(word))));
	const scored = candidates.map((companion) => {
		return {
			companion,
			score: longestBeginning([...companionWords(companion)].filter((word) => !inAll.has(word)), words)
		};
	});
	scored.sort((a, b) => b.score - a.score);
	const best = scored[0];
	return scored.find(({ companion, score }) => score === best.score && !sameValues(companion.values, best.companion.values)) === void 0 ? best.companion : null;
}
/** The length of the longest of a companion's words that begins one of the record's. */
function longestBeginning(own, recordWords) {
	let longest = 0;
	for (const word of own) if (recordWords.some((other) => other.startsWith(word))) longest = Math.max(longest, word.length);
	return longest;
}
function companionWords({ file, title }) {
	return new Set(wordsOf(`${title} ${file.slice(file.lastIndexOf("/") + 1)}`));
}
function wordsOf(text) {
	return text.toLowerCase().match(/[\p{L}\p{N}]{3,}/gu) ?? [];
}
function sameValues(a, b) {
	return a.every((value, channel) => value === b[channel]);
}
/** The folder of a path, without `./`; empty for none. */
function folderOf(path) {
	const slash = path.lastIndexOf("/");
	if (slash < 0) return "";
	return path.slice(0, Math.max(slash, path.startsWith("/") ? 1 : 0)).replace(/\/\.(?=\/|$)/g, "").replace(/^\.(\/|$)/, "");
}
/** A path's folder and those above it; above a relative root come `..`, `../..` and so on. */
function foldersUp(path) {
	const folders = [folderOf(path)];
	for (let folder = folders[0]; folders.length < 40 && folder !== "/";) {
		if (folder === "" || /(^|\/)\.\.$/.test(folder)) folder = folder === "" ? ".." : `${folder}/..`;
		else folder = folder.lastIndexOf("/") === 0 ? "/" : folderOf(folder);
		folders.push(folder);
	}
	return folders;
}
// ../../work/wt-reader/src/readers/result.ts
/** A result that holds nothing but its kind. */
function nothingIn(kind, problems = []) {
	return {
		kind,
		scans: [],
		tables: [],
		tracks: [],
		layout: null,
		problems
	};
}
/** A file that was left out whole, with the reason and what to do about it. */
function leftOut(file, line, problem, advice) {
	return nothingIn("unknown", [{
		file,
		line,
		problem,
		done: `left out; ${advice}`
	}]);
}
/** A file's name without its folders and ending. */
function stemOf(path) {
	const name = path.slice(path.lastIndexOf("/") + 1);
	const dot = name.lastIndexOf(".");
	return (dot > 0 ? name.slice(0, dot) : name).normalize("NFC");
}
/** A cell as it may stand in a message: printable, at most 40 characters. */
function quoted(text) {
	const plain = text.replace(/[\p{C}\uFFFD]/gu, "·");
	return `“${plain.length > 40 ? `${plain.slice(0, 40)}…` : plain}”`;
}
// ../../work/wt-reader/node_modules/fflate/esm/index.mjs
var require = createRequire("/");
var _a;
try {
	_a = require("worker_threads"), _a.Worker, _a.isMarkedAsUntransferable;
} catch (e) {}
var u8 = Uint8Array;
var u16 = Uint16Array;
var i32 = Int32Array;
var fleb = new u8([
	0,
	0,
	0,
	0,
	0,
	0,
	0,
	0,
	1,
	1,
	1,
	1,
	2,
	2,
	2,
	2,
	3,
	3,
	3,
	3,
	4,
	4,
	4,
	4,
	5,
	5,
	5,
	5,
	0,
	0,
	0,
	0
]);
var fdeb = new u8([
	0,
	0,
	0,
	0,
	1,
	1,
	2,
	2,
	3,
	3,
	4,
	4,
	5,
	5,
	6,
	6,
	7,
	7,
	8,
	8,
	9,
	9,
	10,
	10,
	11,
	11,
	12,
	12,
	13,
	13,
	0,
	0
]);
var clim = new u8([
	16,
	17,
	18,
	0,
	8,
	7,
	9,
	6,
	10,
	5,
	11,
	4,
	12,
	3,
	13,
	2,
	14,
	1,
	15
]);
var freb = function(eb, start) {
	var b = new u16(31);
	for (var i = 0; i < 31; ++i) b[i] = start += 1 << eb[i - 1];
	var r = new i32(b[30]);
	for (var i = 1; i < 30; ++i) for (var j = b[i]; j < b[i + 1]; ++j) r[j] = j - b[i] << 5 | i;
	return {
		b,
		r
	};
};
var _a = freb(fleb, 2);
var fl = _a.b;
var revfl = _a.r;
fl[28] = 258, revfl[258] = 28;
var _b = freb(fdeb, 0);
var fd = _b.b;
_b.r;
var rev = new u16(32768);
for (var i = 0; i < 32768; ++i) {
	var x = (i & 43690) >> 1 | (i & 21845) << 1;
	x = (x & 52428) >> 2 | (x & 13107) << 2;
	x = (x & 61680) >> 4 | (x & 3855) << 4;
	rev[i] = ((x & 65280) >> 8 | (x & 255) << 8) >> 1;
}
var hMap = (function(cd, mb, r) {
	var s = cd.length;
	var i = 0;
	var l = new u16(mb);
	for (; i < s; ++i) if (cd[i]) ++l[cd[i] - 1];
	var le = new u16(mb);
	for (i = 1; i < mb; ++i) le[i] = le[i - 1] + l[i - 1] << 1;
	var co;
	if (r) {
		co = new u16(1 << mb);
		var rvb = 15 - mb;
		for (i = 0; i < s; ++i) if (cd[i]) {
			var sv = i << 4 | cd[i];
			var r_1 = mb - cd[i];
			var v = le[cd[i] - 1]++ << r_1;
			for (var m = v | (1 << r_1) - 1; v <= m; ++v) co[rev[v] >> rvb] = sv;
		}
	} else {
		co = new u16(s);
		for (i = 0; i < s; ++i) if (cd[i]) co[i] = rev[le[cd[i] - 1]++] >> 15 - cd[i];
	}
	return co;
});
var flt = new u8(288);
for (var i = 0; i < 144; ++i) flt[i] = 8;
for (var i = 144; i < 256; ++i) flt[i] = 9;
for (var i = 256; i < 280; ++i) flt[i] = 7;
for (var i = 280; i < 288; ++i) flt[i] = 8;
var fdt = new u8(32);
for (var i = 0; i < 32; ++i) fdt[i] = 5;
var flrm = /*#__PURE__*/ hMap(flt, 9, 1);
var fdrm = /*#__PURE__*/ hMap(fdt, 5, 1);
var max = function(a) {
	var m = a[0];
	for (var i = 1; i < a.length; ++i) if (a[i] > m) m = a[i];
	return m;
};
var bits = function(d, p, m) {
	var o = p / 8 | 0;
	return (d[o] | d[o + 1] << 8) >> (p & 7) & m;
};
var bits16 = function(d, p) {
	var o = p / 8 | 0;
	return (d[o] | d[o + 1] << 8 | d[o + 2] << 16) >> (p & 7);
};
var shft = function(p) {
	return (p + 7) / 8 | 0;
};
var slc = function(v, s, e) {
	if (s == null || s < 0) s = 0;
	if (e == null || e > v.length) e = v.length;
	return new u8(v.subarray(s, e));
};
var ec = [
	"unexpected EOF",
	"invalid block type",
	"invalid length/literal",
	"invalid distance",
	"stream finished",
	"no stream handler",
	,
	"no callback",
	"invalid UTF-8 data",
	"extra field too long",
	"date not in range 1980-2099",
	"filename too long",
	"stream finishing",
	"invalid zip data"
];
var err = function(ind, msg, nt) {
	var e = new Error(msg || ec[ind]);
	e.code = ind;
	if (Error.captureStackTrace) Error.captureStackTrace(e, err);
	if (!nt) throw e;
	return e;
};
var inflt = function(dat, st, buf, dict) {
	var sl = dat.length, dl = dict ? dict.length : 0;
	if (!sl || st.f && !st.l) return buf || new u8(0);
	var noBuf = !buf;
	var resize = noBuf || st.i != 2;
	var noSt = st.i;
	if (noBuf) buf = new u8(sl * 3);
	var cbuf = function(l) {
		var bl = buf.length;
		if (l > bl) {
			var nbuf = new u8(Math.max(bl * 2, l));
			nbuf.set(buf);
			buf = nbuf;
		}
	};
	var final = st.f || 0, pos = st.p || 0, bt = st.b || 0, lm = st.l, dm = st.d, lbt = st.m, dbt = st.n;
	var tbts = sl * 8;
	do {
		if (!lm) {
			final = bits(dat, pos, 1);
			var type = bits(dat, pos + 1, 3);
			pos += 3;
			if (!type) {
				var s = shft(pos) + 4, l = dat[s - 4] | dat[s - 3] << 8, t = s + l;
				if (t > sl) {
					if (noSt) err(0);
					break;
				}
				if (resize) cbuf(bt + l);
				buf.set(dat.subarray(s, t), bt);
				st.b = bt += l, st.p = pos = t * 8, st.f = final;
				continue;
			} else if (type == 1) lm = flrm, dm = fdrm, lbt = 9, dbt = 5;
			else if (type == 2) {
				var hLit = bits(dat, pos, 31) + 257, hcLen = bits(dat, pos + 10, 15) + 4;
				var tl = hLit + bits(dat, pos + 5, 31) + 1;
				pos += 14;
				var ldt = new u8(tl);
				var clt = new u8(19);
				for (var i = 0; i < hcLen; ++i) clt[clim[i]] = bits(dat, pos + i * 3, 7);
				pos += hcLen * 3;
				var clb = max(clt), clbmsk = (1 << clb) - 1;
				var clm = hMap(clt, clb, 1);
				for (var i = 0; i < tl;) {
					var r = clm[bits(dat, pos, clbmsk)];
					pos += r & 15;
					var s = r >> 4;
					if (s < 16) ldt[i++] = s;
					else {
						var c = 0, n = 0;
						if (s == 16) n = 3 + bits(dat, pos, 3), pos += 2, c = ldt[i - 1];
						else if (s == 17) n = 3 + bits(dat, pos, 7), pos += 3;
						else if (s == 18) n = 11 + bits(dat, pos, 127), pos += 7;
						while (n--) ldt[i++] = c;
					}
				}
				var lt = ldt.subarray(0, hLit), dt = ldt.subarray(hLit);
				lbt = max(lt);
				dbt = max(dt);
				lm = hMap(lt, lbt, 1);
				dm = hMap(dt, dbt, 1);
			} else err(1);
			if (pos > tbts) {
				if (noSt) err(0);
				break;
			}
		}
		if (resize) cbuf(bt + 131072);
		var lms = (1 << lbt) - 1, dms = (1 << dbt) - 1;
		var lpos = pos;
		for (;; lpos = pos) {
			var c = lm[bits16(dat, pos) & lms], sym = c >> 4;
			pos += c & 15;
			if (pos > tbts) {
				if (noSt) err(0);
				break;
			}
			if (!c) err(2);
			if (sym < 256) buf[bt++] = sym;
			else if (sym == 256) {
				lpos = pos, lm = null;
				break;
			} else {
				var add = sym - 254;
				if (sym > 264) {
					var i = sym - 257, b = fleb[i];
					add = bits(dat, pos, (1 << b) - 1) + fl[i];
					pos += b;
				}
				var d = dm[bits16(dat, pos) & dms], dsym = d >> 4;
				if (!d) err(3);
				pos += d & 15;
				var dt = fd[dsym];
				if (dsym > 3) {
					var b = fdeb[dsym];
					dt += bits16(dat, pos) & (1 << b) - 1, pos += b;
				}
				if (pos > tbts) {
					if (noSt) err(0);
					break;
				}
				if (resize) cbuf(bt + 131072);
				var end = bt + add;
				if (bt < dt) {
					var shift = dl - dt, dend = Math.min(dt, end);
					if (shift + bt < 0) err(3);
					for (; bt < dend; ++bt) buf[bt] = dict[shift + bt];
				}
				for (; bt < end; ++bt) buf[bt] = buf[bt - dt];
			}
		}
		st.l = lm, st.p = lpos, st.b = bt, st.f = final;
		if (lm) final = 1, st.m = lbt, st.d = dm, st.n = dbt;
	} while (!final);
	return bt != buf.length && noBuf ? slc(buf, 0, bt) : buf.subarray(0, bt);
};
var et = /*#__PURE__*/ new u8(0);
/**
* Streaming DEFLATE decompression
*/
var Inflate = /* @__PURE__ */ function() {
	function Inflate(opts, cb) {
		if (typeof opts == "function") cb = opts, opts = {};
		this.ondata = cb;
		var dict = opts && opts.dictionary && opts.dictionary.subarray(-32768);
		this.s = {
			i: 0,
			b: dict ? dict.length : 0
		};
		this.o = new u8(32768);
		this.p = new u8(0);
		if (dict) this.o.set(dict);
	}
	Inflate.prototype.e = function(c) {
		if (!this.ondata) err(5);
		if (this.d) err(4);
		if (!this.p.length) this.p = c;
		else if (c.length) {
			var n = new u8(this.p.length + c.length);
			n.set(this.p), n.set(c, this.p.length), this.p = n;
		}
	};
	Inflate.prototype.c = function(final) {
		this.s.i = +(this.d = final || false);
		var bts = this.s.b;
		var dt = inflt(this.p, this.s, this.o);
		this.ondata(slc(dt, bts, this.s.b), this.d);
		this.o = slc(dt, this.s.b - 32768), this.s.b = this.o.length;
		this.p = slc(this.p, this.s.p / 8 | 0), this.s.p &= 7;
	};
	/**
	* Pushes a chunk to be inflated
	* @param chunk The chunk to push
	* @param final Whether this is the final chunk
	*/
	Inflate.prototype.push = function(chunk, final) {
		this.e(chunk), this.c(final);
	};
	return Inflate;
}();
var td = typeof TextDecoder != "undefined" && /*#__PURE__*/ new TextDecoder();
try {
	td.decode(et, { stream: true });
} catch (e) {}
// ../../work/wt-reader/src/readers/zip.ts
/** Reads zip archives (ISO/IEC 21320-1): stored and deflated entries, sizes and counts bounded. */
var MOST_ENTRIES = 2e4;
var MOST_BYTES$3 = 4e8;
/** Deflate cannot shrink further than about 1030 to 1 (RFC 1951); text of scans stays below 20. */
var MOST_RATIO = 1100;
var END_OF_DIRECTORY = 101010256;
var DIRECTORY_ENTRY = 33639248;
var LOCAL_ENTRY = 67324752;
/** The files of an archive, or a sentence that says why it cannot be opened. */
function zipEntries(bytes) {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	const end = findEnd(view);
	if (end < 0) return "a zip archive without its directory: it breaks off or is damaged";
	const count = view.getUint16(end + 10, true);
	let at = view.getUint32(end + 16, true);
	if (count === 65535 || at === 4294967295) return "a zip64 archive";
	if (count > MOST_ENTRIES) return `a zip archive of ${count} files, more than ${MOST_ENTRIES}`;
	const entries = [];
	let total = 0;
	let packed = 0;
	for (let i = 0; i < count; i++) {
		if (at + 46 > bytes.length || view.getUint32(at, true) !== DIRECTORY_ENTRY) return "a zip archive with a damaged directory";
		const entry = directoryEntry(view, at);
		const nameEnd = at + 46 + entry.nameLength;
		const name = textOf$1(bytes, at + 46, nameEnd);
		at = nameEnd + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
		if (name.endsWith("/") || /(^|\/)(__MACOSX\/|\.)/u.test(name)) continue;
		total += entry.size;
		packed += entry.packed;
		if (packed > bytes.length) return "a zip archive whose files overlap";
		if (total > MOST_BYTES$3) return `a zip archive of over ${MOST_BYTES$3 / 1e6} MB unpacked`;
		entries.push({
			name: safeName(name),
			size: entry.size,
			read: () => {
				const packed = packedFile(bytes, view, entry);
				return typeof packed === "string" ? packed : unpackFile(packed);
			},
			packed: () => {
				const packed = packedFile(bytes, view, entry);
				return typeof packed === "string" ? packed : {
					...packed,
					body: packed.body.slice()
				};
			}
		});
	}
	return entries;
}
/** The end record stands in the last 65,557 bytes, behind it at most a comment. */
function findEnd(view) {
	const lowest = Math.max(0, view.byteLength - 65557);
	for (let at = view.byteLength - 22; at >= lowest; at--) if (view.getUint32(at, true) === END_OF_DIRECTORY) return at;
	return -1;
}
function directoryEntry(view, at) {
	return {
		flags: view.getUint16(at + 8, true),
		method: view.getUint16(at + 10, true),
		crc: view.getUint32(at + 16, true),
		packed: view.getUint32(at + 20, true),
		size: view.getUint32(at + 24, true),
		nameLength: view.getUint16(at + 28, true),
		offset: view.getUint32(at + 42, true)
	};
}
/** A path that stays within the archive. */
function safeName(name) {
	return name.replaceAll("\\", "/").split("/").filter((part) => part !== "" && part !== "." && part !== "..").join("/");
}
/** A file's packed bytes where they stand in the archive. */
function packedFile(bytes, view, entry) {
	const { offset, packed, size, method, crc } = entry;
	if ((entry.flags & 1) !== 0) return "an encrypted file in a zip archive";
	if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL_ENTRY) return "a file in a damaged zip archive";
	const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
	if (start + packed > bytes.length) return "a file that its zip archive breaks off in";
	if (size > 1e3 && size / Math.max(1, packed) > MOST_RATIO) return "a file packed beyond reason";
	if (method !== 0 && method !== 8) return `a file packed by method ${method}, which is not read`;
	return {
		body: bytes.subarray(start, start + packed),
		method,
		crc,
		size
	};
}
/** A file's bytes, or a sentence that says why there are none. */
function unpackFile({ body, method, crc, size }) {
	const unpacked = method === 8 ? inflated(body, size) : body;
	if (typeof unpacked === "string") return unpacked;
	if (unpacked.length !== size || crc32(unpacked) !== crc) return "a file that its zip archive holds damaged (its checksum is wrong)";
	return unpacked;
}
/**
* Packed bytes that are inflated at once: fewer towards the end, so that of a file that holds more
* than it says no more than a megabyte, or sixteen times the rest, is inflated in vain.
*/
var [LEAST_PIECE, MOST_PIECE] = [1024, 65536];
/** What a deflated file holds, stopped at once where that is more than its directory says. */
function inflated(body, size) {
	const unpacked = new Uint8Array(size);
	let got = 0;
	const stream = new Inflate((piece) => {
		if (got + piece.length <= size) unpacked.set(piece, got);
		got += piece.length;
	});
	try {
		for (let at = 0; at < body.length;) {
			const end = at + Math.min(MOST_PIECE, Math.max(LEAST_PIECE, size - got >> 6));
			stream.push(body.subarray(at, end), end >= body.length);
			if (got > size) return "a file that unpacks to more than its zip archive says";
			at = end;
		}
	} catch {
		return "a file that its zip archive holds damaged";
	}
	return unpacked.subarray(0, got);
}
var CRC_TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
	let crc = byte;
	for (let bit = 0; bit < 8; bit++) crc = (crc & 1) !== 0 ? crc >>> 1 ^ 3988292384 : crc >>> 1;
	return crc;
});
/** CRC-32 of ISO 3309, as zip has it: of `123456789` it is 0xCBF43926. */
function crc32(bytes) {
	let crc = -1;
	for (let i = 0; i < bytes.length; i++) crc = CRC_TABLE[(crc ^ bytes[i]) & 255] ^ crc >>> 8;
	return (crc ^ -1) >>> 0;
}
// ../../work/wt-reader/src/readers/archive.ts
/** Reads what a zip archive holds, each file as though it lay in a folder of the archive's name. */
var NESTED_ZIP = [
	80,
	75,
	3,
	4
];
/** Reads every file by `readOne`, with companions from the archive and from around it. */
function readArchive(archive, companions, readOne) {
	const entries = zipEntries(archive.bytes);
	if (typeof entries === "string") return leftOut(archive.path, null, entries, "unpack it and add what is in it");
	if (entries.some(({ name }) => name === "[Content_Types].xml")) return leftOut(archive.path, null, "a spreadsheet or document, not text", "save its table as CSV");
	const problems = [];
	const files = [];
	for (const { name, read } of entries) {
		const path = `${archive.path}/${name}`;
		const bytes = read();
		if (typeof bytes === "string") problems.push({
			file: path,
			line: null,
			problem: bytes,
			done: "left out; pack it again"
		});
		else if (NESTED_ZIP.every((value, i) => bytes[i] === value)) problems.push(...leftOut(path, null, "a zip archive in another", "unpack the outer one").problems);
		else files.push({
			path,
			bytes
		});
	}
	const own = collectCompanions(files);
	const all = {
		axes: [...own.axes, ...companions.axes],
		bandwidths: [...own.bandwidths, ...companions.bandwidths],
		...companions.isPartial ? { isPartial: true } : {}
	};
	return joined$1(archive.path, files.map((file) => readOne(file, all)), problems);
}
function joined$1(path, results, before) {
	if (results.some(({ wantsCompanions }) => wantsCompanions)) return {
		...nothingIn("unknown"),
		wantsCompanions: true
	};
	const scans = results.flatMap((result) => result.scans);
	const tables = results.flatMap((result) => result.tables);
	const tracks = results.flatMap((result) => result.tracks);
	const problems = [...before, ...results.flatMap((result) => result.problems)];
	const others = results.filter(({ kind }) => kind === "raster" || kind === "geojson" || kind === "photo");
	if (others.length > 0) problems.push({
		file: path,
		line: null,
		problem: `${others.length} rasters, layers or photos in a zip archive`,
		done: "left out; unpack the archive to use them"
	});
	if (scans.length + tables.length + tracks.length + problems.length === 0) return leftOut(path, null, "a zip archive without scans, tables or tracks", "pack it again");
	const kind = scans.length > 0 ? "scans" : tracks.length > 0 ? "track" : tables.length > 0 ? "table" : "unknown";
	const first = results.find((result) => result.layout !== null);
	const seen = first ?? results.find(({ look }) => look !== void 0);
	return {
		kind,
		scans,
		tables,
		tracks,
		layout: first?.layout ?? null,
		look: seen?.look,
		correction: seen?.correction,
		problems
	};
}
// ../../work/wt-reader/src/readers/correction.ts
/** Units of wavelength as they are written in a recipe, and as a layout has them. */
var WAVELENGTH_UNITS = {
	nm: "nm",
	um: "µm",
	"cm-1": "cm⁻¹"
};
/** The correction for a look, if there is one. */
function correctionFor(like, corrections) {
	return like === void 0 ? void 0 : corrections.find((each) => each.like === like);
}
/** A correction as the readers take it. */
function overridesOf(correction) {
	const { wavelength_unit: unit, reflectance, column, decimal, encoding } = correction;
	return {
		...unit === void 0 ? {} : { wavelengthUnit: WAVELENGTH_UNITS[unit] },
		...reflectance === void 0 ? {} : { reflectanceUnit: reflectance },
		...column === void 0 ? {} : { column },
		...decimal === void 0 ? {} : { decimal },
		...encoding === void 0 ? {} : { encoding }
	};
}
// ../../work/wt-reader/src/readers/detector-overlap.ts
/** Field instruments have three detectors; one more may be. */
var MOST_DETECTORS = 4;
/** Fewer rows of a detector in an overlap may be one damaged row. */
var FEWEST_SHARED = 2;
/** More than this part of a detector's channels in an overlap is no overlap but a second scan. */
var MOST_SHARED = 1 / 3;
/** Next to the turn spacing may be this many times the detector's usual one; more is a damaged row. */
var WIDEST_SPACING = 1.6;
/**
* The rows to keep of an axis that runs back where one detector ends and the next has begun: each
* detector's up to the middle of the overlap. No value is changed or computed.
*
* @returns null where wavelengths do not run back at all
*/
function spliceOf(axis) {
	const sign = direction(axis);
	const turns = [];
	for (let i = 1; i < axis.length; i++) if ((axis[i] - axis[i - 1]) * sign < 0) turns.push(i);
	if (turns.length === 0) return null;
	const back = (turn, why) => ({
		problem: `${RUN_BACK} ${short(axis[turn - 1])} to ${short(axis[turn])}`,
		channel: turn,
		why
	});
	if (turns.length >= MOST_DETECTORS) return back(turns[0], `, and ${turns.length - 1} times more`);
	const bounds = [
		0,
		...turns,
		axis.length
	];
	const overlaps = [];
	for (const [i, turn] of turns.entries()) {
		const found = overlapAt(axis, sign, bounds[i], turn, bounds[i + 2]);
		if (typeof found === "string") return back(turn, found);
		overlaps.push(found);
	}
	const kept = [];
	for (let i = 0; i + 1 < bounds.length; i++) {
		const low = i === 0 ? -Infinity : middleOf(overlaps[i - 1]) * sign;
		const high = i === overlaps.length ? Infinity : middleOf(overlaps[i]) * sign;
		for (let row = bounds[i]; row < bounds[i + 1]; row++) {
			const at = axis[row] * sign;
			if (at > low && at <= high) kept.push(row);
		}
	}
	return {
		kept: Int32Array.from(kept),
		overlaps
	};
}
/** 1 where most wavelengths rise, −1 where most fall. */
function direction(axis) {
	let rises = 0;
	for (let i = 1; i < axis.length; i++) rises += Math.sign(axis[i] - axis[i - 1]);
	return rises < 0 ? -1 : 1;
}
function middleOf({ from, to }) {
	return (from + to) / 2;
}
/** The overlap of the rows before a turn with those after it, or why it is none. */
function overlapAt(axis, sign, start, turn, end) {
	const [from, to] = [axis[turn], axis[turn - 1]];
	if (turn - start < 10 || end - turn < 10) return "";
	if ((from - axis[start]) * sign <= 0) return ", where the rows before began: two scans in one";
	if ((axis[end - 1] - to) * sign <= 0) return ` and end at ${short(axis[end - 1])}, within the rows before`;
	if (!isEven(axis, start, turn, turn - 1) || !isEven(axis, turn, end, turn + 1)) return "";
	let first = turn - 1;
	while (first > start && (axis[first - 1] - from) * sign >= 0) first--;
	let last = turn + 1;
	while (last < end && (axis[last] - to) * sign <= 0) last++;
	if (Math.min(turn - first, last - turn) < FEWEST_SHARED) return "";
	if (Math.max((turn - first) / (turn - start), (last - turn) / (end - turn)) > MOST_SHARED) return ", too far for detectors that overlap";
	return {
		from,
		to,
		before: [first, turn],
		next: [turn, last]
	};
}
/** Whether a row is not further from the one before it than its detector's rows are. */
function isEven(axis, start, end, row) {
	const spacings = new Float64Array(end - start - 1);
	for (let i = start + 1; i < end; i++) spacings[i - start - 1] = Math.abs(axis[i] - axis[i - 1]);
	return Math.abs(axis[row] - axis[row - 1]) <= WIDEST_SPACING * quantile(spacings, .5);
}
/** The same scans on the kept rows alone, each with a line of metadata that says so. */
function spliced(raw, { kept }) {
	return {
		...raw,
		axis: pick(raw.axis, kept),
		lineOf: (channel) => raw.lineOf(kept[channel]),
		lineNumber: (channel) => raw.lineNumber(kept[channel]),
		scans: raw.scans.map((scan) => ({
			...scan,
			values: pick(scan.values, kept)
		}))
	};
}
function pick(values, rows) {
	return Float64Array.from(rows, (row) => values[row]);
}
/** The key of the line of metadata that tells of a splice. */
var SPLICED = "detectors spliced";
/** Two detectors that differ by more on one rock have not seen the same. */
var LARGEST_DIFFERENCE = .5;
/** Darker than this part of the scan's bright end, differences say nothing. */
var DARK_PART = .05;
/**
* What a scan's detectors say of one another where they overlap: as a line of metadata, or why
* they cannot be of one scan.
*/
function overlapWords(values, { overlaps }, unit) {
	const bright = Math.abs(quantile(values, .95));
	const parts = [];
	for (const overlap of overlaps) {
		const [before, next] = [meanOf(values, overlap.before), meanOf(values, overlap.next)];
		const range = rangeWords(overlap, unit);
		const level = Math.max(Math.abs(before), Math.abs(next));
		const difference = Math.abs(next - before) / level;
		if (level > DARK_PART * bright && difference > LARGEST_DIFFERENCE) return { problem: `its detectors differ by ${(100 * difference).toFixed(0)} % where they overlap (${range})` };
		parts.push(`at ${spliceWords(overlap, unit)} (both read ${range}${stepWords(next / before - 1)})`);
	}
	return {
		key: SPLICED,
		value: parts.join("; ")
	};
}
/** Where a file's detectors overlap, as a sentence for its layout. */
function spliceReason({ overlaps }, unit) {
	return `detectors overlap from ${overlaps.map((overlap) => `${rangeWords(overlap, unit)}, spliced at ${spliceWords(overlap, unit)}`).join(" and from ")}; each counts to the middle`;
}
function rangeWords({ from, to }, unit) {
	const [low, high] = [from, to].map((at) => toNanometres(at, unit)).sort((a, b) => a - b);
	return `${short(low)} to ${short(high)} nm`;
}
function spliceWords(overlap, unit) {
	return `${short(toNanometres(middleOf(overlap), unit))} nm`;
}
function meanOf(values, [first, end]) {
	let [sum, count] = [0, 0];
	for (let i = first; i < end; i++) {
		if (Number.isNaN(values[i])) continue;
		sum += values[i];
		count++;
	}
	return count > 0 ? sum / count : NaN;
}
/** By how much the next detector reads more or less; nothing where that cannot be told. */
function stepWords(step) {
	if (!Number.isFinite(step)) return "";
	return `, where the next reads ${(100 * Math.abs(step)).toFixed(1)} % ${step < 0 ? "less" : "more"}`;
}
/**
* Whether half of an overlap's rows or more stand in both alike, to the last digit: a piece of the
* file that was written twice, which two detectors never are.
*/
function isRepeated({ axis, scans }, { before, next }) {
	const columns = [axis, ...scans.map(({ values }) => values)];
	const rows = /* @__PURE__ */ new Map();
	for (let row = before[0]; row < before[1]; row++) rows.set(axis[row], row);
	let alike = 0;
	for (let row = next[0]; row < next[1]; row++) {
		const twin = rows.get(axis[row]);
		if (twin === void 0) continue;
		if (columns.every((column) => Object.is(column[twin], column[row]))) alike++;
	}
	return 2 * alike >= Math.min(before[1] - before[0], next[1] - next[0]);
}
// ../../work/wt-reader/src/readers/assemble.ts
/** Raw columns of numbers to scans: units decided, order made ascending, faults named. */
/** Values looked at to tell fractions from percent. */
var SAMPLE = 150;
/** Decides units and makes scans of raw numbers, or says why it cannot. */
function assemble(whole, overrides, problems = []) {
	const settled = settleAxis(whole, overrides, problems);
	return "layout" in settled ? settled : assembleOn(settled, whole, overrides, problems);
}
/** Decides the order and the unit of an axis, or gives the file left out with what is wrong. */
function settleAxis(whole, overrides, problems) {
	const { raw, splice, fault } = inOrder(whole);
	if (fault !== null) {
		const result = leftOut(raw.file, raw.lineNumber(fault.channel), fault.problem, "export the scan again with each wavelength once, in order");
		return {
			...result,
			problems: [...problems, ...result.problems]
		};
	}
	const wavelength = wavelengthDecision(raw, overrides);
	const axis = ascending(raw.axis, wavelength.unit);
	const outside = outsideOptics(axis.wavelengths, wavelength.unit);
	if (outside === null) return {
		wavelength,
		axis,
		splice,
		raw
	};
	return leftOut(raw.file, raw.lineNumber(0), outside, "set the wavelength unit by hand if it was misread");
}
/** Decides the unit of reflectance and makes scans on an axis that is settled. */
function assembleOn({ wavelength, axis, splice, raw }, whole, overrides, problems) {
	const reflectance = reflectanceDecision(raw, overrides);
	if (reflectance === null) {
		const most = short(largest(raw.scans));
		return leftOut(raw.file, raw.scans[0]?.line ?? null, `values up to ${most} are no reflectance but raw counts or radiance`, "export reflectance (the ratio to the white panel)");
	}
	const faults = [...problems];
	const scans = [];
	for (const [i, scan] of raw.scans.entries()) {
		const told = splice === null ? scan : withOverlap(whole, i, scan, splice, wavelength.unit);
		const made = "problem" in told ? told : makeScan(raw, told, axis, FULL_SCALE[reflectance.unit]);
		if ("problem" in made) faults.push(made);
		else scans.push(made);
	}
	return {
		kind: scans.length > 0 ? "scans" : "unknown",
		scans,
		tables: [],
		tracks: [],
		layout: {
			...raw.layout,
			name: raw.layout.name,
			wavelengthUnit: wavelength.unit,
			reflectanceUnit: reflectance.unit,
			reasons: [
				wavelength.reason,
				reflectance.reason,
				...splice === null ? [] : [spliceReason(splice, wavelength.unit)]
			]
		},
		problems: faults
	};
}
function inOrder(whole) {
	const fault = axisFault(whole.axis, whole.lineOf);
	if (!(fault !== null && fault.problem.startsWith("wavelengths run back from")) || whole.companion !== void 0) return {
		raw: whole,
		splice: null,
		fault
	};
	const splice = spliceOf(whole.axis);
	if (splice === null) return {
		raw: whole,
		splice,
		fault
	};
	if ("problem" in splice) {
		const { channel, why } = splice;
		return {
			raw: whole,
			splice: null,
			fault: {
				problem: `${splice.problem} at ${whole.lineOf(channel)}${why}`,
				channel
			}
		};
	}
	const twice = splice.overlaps.find((overlap) => isRepeated(whole, overlap));
	if (twice !== void 0) {
		const [from, to] = [twice.from, twice.to].map(short);
		return {
			raw: whole,
			splice: null,
			fault: {
				problem: `the rows from ${from} to ${to} stand twice (again from ${whole.lineOf(twice.next[0])})`,
				channel: twice.next[0]
			}
		};
	}
	const raw = spliced(whole, splice);
	return {
		raw,
		splice,
		fault: axisFault(raw.axis, raw.lineOf)
	};
}
/** A scan with the line of metadata that tells of its overlaps, or why it is none. */
function withOverlap(whole, index, scan, splice, unit) {
	const told = overlapWords(whole.scans[index].values, splice, unit);
	if ("key" in told) return {
		...scan,
		metadata: {
			...scan.metadata,
			[told.key]: told.value
		}
	};
	return {
		file: whole.file,
		line: whole.lineNumber(splice.overlaps[0].next[0]),
		problem: `the scan ${scan.name} is no one scan: ${told.problem}`,
		done: "left out; export it again with each wavelength once"
	};
}
function wavelengthDecision(raw, overrides) {
	if (raw.companion !== void 0) return {
		unit: "nm",
		reason: `wavelengths from ${raw.companion.file}`
	};
	if (overrides.wavelengthUnit !== void 0) return {
		unit: overrides.wavelengthUnit,
		reason: "the wavelength unit was set by hand"
	};
	return decideWavelengthUnit(raw.axis, namedWavelengthUnit(raw.wavelengthHint));
}
function reflectanceDecision(raw, overrides) {
	if (overrides.reflectanceUnit !== void 0) return {
		unit: overrides.reflectanceUnit,
		reason: "the reflectance unit was set by hand"
	};
	const sample = sampleOf(raw.scans);
	if (sample.length === 0) return {
		unit: "fraction",
		reason: "there are no values"
	};
	return decideReflectanceUnit(sample, namedReflectanceUnit(raw.reflectanceHint));
}
/** Some 150 values that are no gaps, spread evenly over scans and channels. */
function sampleOf(scans) {
	const total = scans.reduce((sum, scan) => sum + scan.values.length, 0);
	const step = Math.max(1, Math.floor(total / SAMPLE));
	const sample = [];
	let offset = 0;
	for (const { values } of scans) {
		let i = offset;
		for (; i < values.length; i += step) if (!Number.isNaN(values[i])) sample.push(values[i]);
		offset = i - values.length;
	}
	if (sample.length < 20 && step > 1) {
		for (const { values } of scans) for (const value of values) if (!Number.isNaN(value) && sample.length < 4e3) sample.push(value);
	}
	return new Float64Array(sample);
}
function largest(scans) {
	let most = -Infinity;
	for (const { values } of scans) for (const value of values) if (value > most) most = value;
	return most;
}
function ascending(axis, unit) {
	const rises = axis[axis.length - 1] > axis[0];
	const reversed = unit === "cm⁻¹" ? rises : !rises;
	if (unit === "nm") return {
		wavelengths: reversed ? axis.slice().reverse() : axis,
		reversed
	};
	const wavelengths = axis.map((value) => toNanometres(value, unit));
	return {
		wavelengths: reversed ? wavelengths.reverse() : wavelengths,
		reversed
	};
}
/** Reflected light of rocks is measured between 100 nm and 100 µm; other numbers are no wavelengths. */
function outsideOptics(wavelengths, unit) {
	const first = wavelengths[0];
	const last = wavelengths[wavelengths.length - 1];
	if (first >= 100 && last <= 1e5) return null;
	return `wavelengths from ${short(first)} to ${short(last)} nm, read as ${unit}, are no wavelengths`;
}
function makeScan(raw, scan, axis, fullScale) {
	const count = scan.values.length;
	const reflectance = new Float32Array(count);
	let present = 0;
	if (fullScale === 1) reflectance.set(scan.values);
	else for (let i = 0; i < count; i++) reflectance[i] = scan.values[i] / fullScale;
	if (axis.reversed) reflectance.reverse();
	for (let i = 0; i < count && present < 10; i++) if (!Number.isNaN(reflectance[i])) present++;
	if (present < 10) return {
		file: raw.file,
		line: scan.line,
		problem: `the scan ${scan.name} has ${present === 0 ? "no values" : `only ${present} values`}`,
		done: "left out; export it again"
	};
	return {
		name: scan.name,
		file: raw.file,
		wavelengths: axis.wavelengths,
		reflectance,
		metadata: scan.metadata,
		...raw.bandwidths === void 0 ? {} : { bandwidths: raw.bandwidths.values }
	};
}
// ../../work/wt-reader/src/readers/familiar.ts
/**
* Files that differ from one read before in nothing but the digits of their values: the next scan
* of the same instrument. What a head says, and all that follows from head and axis, is settled by
* the first of them; of the others the digits are read and the unit of reflectance is decided.
*
* It gives what the patient way gives, sooner: a head of the same bytes over a body that fits the
* same stencil is parted into the same lines and cells. A folder is as a rule read once, by workers
* that have just been started, and then what counts is how little code a file passes through.
*/
/** A longer head belongs to one file. */
var LONGEST_HEAD = 2e4;
/** The last forms, the newest first. They change how fast a file is read, never what it gives. */
var kept = [];
/** Keeps what files alike have in common. */
function keepForm(form) {
	if (form.head.length > LONGEST_HEAD) return;
	kept = [{
		...form,
		head: form.head.slice(),
		values: new Float64Array(form.stencil.cells.length)
	}, ...kept.slice(0, 3)];
}
/** What a file gives that is like one read before; null where it is not. */
function readFamiliar({ path, bytes }) {
	for (const form of kept) {
		const start = form.head.length;
		if (bytes.length !== start + form.stencil.length || !beginsWith(bytes, form.head)) continue;
		if (readThrough(form.stencil, bytes, start, form.values)) return familiarResult(form, path);
	}
	return null;
}
function beginsWith(bytes, head) {
	for (let i = 0; i < head.length; i++) if (bytes[i] !== head[i]) return false;
	return true;
}
function familiarResult(form, file) {
	const { raw, settled, values, look, isNamedByFile } = form;
	const [first] = raw.scans;
	const scan = {
		...first,
		name: isNamedByFile ? stemOf(file) : first.name,
		values
	};
	const scans = {
		...raw,
		file,
		scans: [scan]
	};
	return {
		...assembleOn({
			...settled,
			raw: scans
		}, scans, {}, []),
		look
	};
}
// ../../work/wt-reader/node_modules/fast-xml-parser/src/util.js
var regexName = /* @__PURE__ */ new RegExp("^[:A-Za-z_\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02FF\\u0370-\\u037D\\u037F-\\u1FFF\\u200C-\\u200D\\u2070-\\u218F\\u2C00-\\u2FEF\\u3001-\\uD7FF\\uF900-\\uFDCF\\uFDF0-\\uFFFD][:A-Za-z_\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02FF\\u0370-\\u037D\\u037F-\\u1FFF\\u200C-\\u200D\\u2070-\\u218F\\u2C00-\\u2FEF\\u3001-\\uD7FF\\uF900-\\uFDCF\\uFDF0-\\uFFFD\\-.\\d\\u00B7\\u0300-\\u036F\\u203F-\\u2040]*$");
function getAllMatches(string, regex) {
	const matches = [];
	let match = regex.exec(string);
	while (match) {
		const allmatches = [];
		allmatches.startIndex = regex.lastIndex - match[0].length;
		const len = match.length;
		for (let index = 0; index < len; index++) allmatches.push(match[index]);
		matches.push(allmatches);
		match = regex.exec(string);
	}
	return matches;
}
var isName = function(string) {
	const match = regexName.exec(string);
	return !(match === null || typeof match === "undefined");
};
function isExist(v) {
	return typeof v !== "undefined";
}
/**
* Dangerous property names that could lead to prototype pollution or security issues
*/
var DANGEROUS_PROPERTY_NAMES = [
	"hasOwnProperty",
	"toString",
	"valueOf",
	"__defineGetter__",
	"__defineSetter__",
	"__lookupGetter__",
	"__lookupSetter__"
];
var criticalProperties = [
	"__proto__",
	"constructor",
	"prototype"
];
// ../../work/wt-reader/node_modules/fast-xml-parser/src/validator.js
var defaultOptions$1 = {
	allowBooleanAttributes: false,
	unpairedTags: []
};
function validate(xmlData, options) {
	options = Object.assign({}, defaultOptions$1, options);
	const tags = [];
	let tagFound = false;
	let reachedRoot = false;
	if (xmlData[0] === "﻿") xmlData = xmlData.substr(1);
	for (let i = 0; i < xmlData.length; i++) if (xmlData[i] === "<" && xmlData[i + 1] === "?") {
		i += 2;
		i = readPI(xmlData, i);
		if (i.err) return i;
	} else if (xmlData[i] === "<") {
		let tagStartPos = i;
		i++;
		if (xmlData[i] === "!") {
			i = readCommentAndCDATA(xmlData, i);
			continue;
		} else {
			let closingTag = false;
			if (xmlData[i] === "/") {
				closingTag = true;
				i++;
			}
			let tagName = "";
			for (; i < xmlData.length && xmlData[i] !== ">" && xmlData[i] !== " " && xmlData[i] !== "	" && xmlData[i] !== "\n" && xmlData[i] !== "\r"; i++) tagName += xmlData[i];
			tagName = tagName.trim();
			if (tagName[tagName.length - 1] === "/") {
				tagName = tagName.substring(0, tagName.length - 1);
				i--;
			}
			if (!validateTagName(tagName)) {
				let msg;
				if (tagName.trim().length === 0) msg = "Invalid space after '<'.";
				else msg = "Tag '" + tagName + "' is an invalid name.";
				return getErrorObject("InvalidTag", msg, getLineNumberForPosition(xmlData, i));
			}
			const result = readAttributeStr(xmlData, i);
			if (result === false) return getErrorObject("InvalidAttr", "Attributes for '" + tagName + "' have open quote.", getLineNumberForPosition(xmlData, i));
			let attrStr = result.value;
			i = result.index;
			if (attrStr[attrStr.length - 1] === "/") {
				const attrStrStart = i - attrStr.length;
				attrStr = attrStr.substring(0, attrStr.length - 1);
				const isValid = validateAttributeString(attrStr, options);
				if (isValid === true) tagFound = true;
				else return getErrorObject(isValid.err.code, isValid.err.msg, getLineNumberForPosition(xmlData, attrStrStart + isValid.err.line));
			} else if (closingTag) {
				if (!result.tagClosed) return getErrorObject("InvalidTag", "Closing tag '" + tagName + "' doesn't have proper closing.", getLineNumberForPosition(xmlData, i));
				else if (attrStr.trim().length > 0) return getErrorObject("InvalidTag", "Closing tag '" + tagName + "' can't have attributes or invalid starting.", getLineNumberForPosition(xmlData, tagStartPos));
				else if (tags.length === 0) return getErrorObject("InvalidTag", "Closing tag '" + tagName + "' has not been opened.", getLineNumberForPosition(xmlData, tagStartPos));
				else {
					const otg = tags.pop();
					if (tagName !== otg.tagName) {
						let openPos = getLineNumberForPosition(xmlData, otg.tagStartPos);
						return getErrorObject("InvalidTag", "Expected closing tag '" + otg.tagName + "' (opened in line " + openPos.line + ", col " + openPos.col + ") instead of closing tag '" + tagName + "'.", getLineNumberForPosition(xmlData, tagStartPos));
					}
					if (tags.length == 0) reachedRoot = true;
				}
			} else {
				const isValid = validateAttributeString(attrStr, options);
				if (isValid !== true) return getErrorObject(isValid.err.code, isValid.err.msg, getLineNumberForPosition(xmlData, i - attrStr.length + isValid.err.line));
				if (reachedRoot === true) return getErrorObject("InvalidXml", "Multiple possible root nodes found.", getLineNumberForPosition(xmlData, i));
				else if (options.unpairedTags.indexOf(tagName) !== -1) {} else tags.push({
					tagName,
					tagStartPos
				});
				tagFound = true;
			}
			for (i++; i < xmlData.length; i++) if (xmlData[i] === "<") {
				if (xmlData[i + 1] === "!") {
					i++;
					i = readCommentAndCDATA(xmlData, i);
					continue;
				} else if (xmlData[i + 1] === "?") {
					i = readPI(xmlData, ++i);
					if (i.err) return i;
				} else break;
			} else if (xmlData[i] === "&") {
				const afterAmp = validateAmpersand(xmlData, i);
				if (afterAmp == -1) return getErrorObject("InvalidChar", "char '&' is not expected.", getLineNumberForPosition(xmlData, i));
				i = afterAmp;
			} else if (reachedRoot === true && !isWhiteSpace(xmlData[i])) return getErrorObject("InvalidXml", "Extra text at the end", getLineNumberForPosition(xmlData, i));
			if (xmlData[i] === "<") i--;
		}
	} else {
		if (isWhiteSpace(xmlData[i])) continue;
		return getErrorObject("InvalidChar", "char '" + xmlData[i] + "' is not expected.", getLineNumberForPosition(xmlData, i));
	}
	if (!tagFound) return getErrorObject("InvalidXml", "Start tag expected.", 1);
	else if (tags.length == 1) return getErrorObject("InvalidTag", "Unclosed tag '" + tags[0].tagName + "'.", getLineNumberForPosition(xmlData, tags[0].tagStartPos));
	else if (tags.length > 0) return getErrorObject("InvalidXml", "Invalid '" + JSON.stringify(tags.map((t) => t.tagName), null, 4).replace(/\r?\n/g, "") + "' found.", {
		line: 1,
		col: 1
	});
	return true;
}
function isWhiteSpace(char) {
	return char === " " || char === "	" || char === "\n" || char === "\r";
}
/**
* Read Processing insstructions and skip
* @param {*} xmlData
* @param {*} i
*/
function readPI(xmlData, i) {
	const start = i;
	for (; i < xmlData.length; i++) if (xmlData[i] == "?" || xmlData[i] == " ") {
		const tagname = xmlData.substr(start, i - start);
		if (i > 5 && tagname === "xml") return getErrorObject("InvalidXml", "XML declaration allowed only at the start of the document.", getLineNumberForPosition(xmlData, i));
		else if (xmlData[i] == "?" && xmlData[i + 1] == ">") {
			i++;
			break;
		} else continue;
	}
	return i;
}
function readCommentAndCDATA(xmlData, i) {
	if (xmlData.length > i + 5 && xmlData[i + 1] === "-" && xmlData[i + 2] === "-") {
		for (i += 3; i < xmlData.length; i++) if (xmlData[i] === "-" && xmlData[i + 1] === "-" && xmlData[i + 2] === ">") {
			i += 2;
			break;
		}
	} else if (xmlData.length > i + 8 && xmlData[i + 1] === "D" && xmlData[i + 2] === "O" && xmlData[i + 3] === "C" && xmlData[i + 4] === "T" && xmlData[i + 5] === "Y" && xmlData[i + 6] === "P" && xmlData[i + 7] === "E") {
		let angleBracketsCount = 1;
		for (i += 8; i < xmlData.length; i++) if (xmlData[i] === "<") angleBracketsCount++;
		else if (xmlData[i] === ">") {
			angleBracketsCount--;
			if (angleBracketsCount === 0) break;
		}
	} else if (xmlData.length > i + 9 && xmlData[i + 1] === "[" && xmlData[i + 2] === "C" && xmlData[i + 3] === "D" && xmlData[i + 4] === "A" && xmlData[i + 5] === "T" && xmlData[i + 6] === "A" && xmlData[i + 7] === "[") {
		for (i += 8; i < xmlData.length; i++) if (xmlData[i] === "]" && xmlData[i + 1] === "]" && xmlData[i + 2] === ">") {
			i += 2;
			break;
		}
	}
	return i;
}
var doubleQuote = "\"";
var singleQuote = "'";
/**
* Keep reading xmlData until '<' is found outside the attribute value.
* @param {string} xmlData
* @param {number} i
*/
function readAttributeStr(xmlData, i) {
	let attrStr = "";
	let startChar = "";
	let tagClosed = false;
	for (; i < xmlData.length; i++) {
		if (xmlData[i] === doubleQuote || xmlData[i] === singleQuote) {
			if (startChar === "") startChar = xmlData[i];
			else if (startChar !== xmlData[i]) {} else startChar = "";
		} else if (xmlData[i] === ">") {
			if (startChar === "") {
				tagClosed = true;
				break;
			}
		}
		attrStr += xmlData[i];
	}
	if (startChar !== "") return false;
	return {
		value: attrStr,
		index: i,
		tagClosed
	};
}
/**
* Walk `attrStr` once, left to right, splitting it into attribute tokens.
*
* This replaces a regex that used to do the same job
* (`(\s*)([^\s=]+)(\s*=)?(\s*(['"])(([\s\S])*?)\5)?`). That regex led with an
* optional whitespace group followed by a required "non-whitespace" group.
* On a long run of whitespace that never resolves into an attribute name
* (e.g. a tag with thousands of trailing spaces before `>`), the engine
* backtracks the whitespace group one character at a time before giving up
* and moving to the next starting position — one full backtrack per
* position, which is quadratic in the length of the run.
*
* The scan is forward-only: the cursor never moves backwards, so each
* character is visited a constant number of times and the cost is linear
* in the length of the string.
*
* Each returned token mirrors the shape the old regex match array had, so
* the validation logic below (which reads token[1]..token[6]) didn't need
* to change:
*   token.startIndex - where this token begins in attrStr
*   token[1]          - leading whitespace before the name
*   token[2]          - the attribute name
*   token[3]          - whitespace + '=' if present, else undefined
*   token[4]          - marker (any defined value) if a quoted value was found
*   token[5]          - the quote character used ('"' or "'")
*   token[6]          - the value's text, without the surrounding quotes
*
* A malformed leading character (e.g. a stray '=' with no name before it)
* is simply skipped over, one character at a time — the same outcome the
* old regex produced by failing to match at that position and retrying at
* the next one.
*/
function scanAttributeTokens(attrStr) {
	const tokens = [];
	const len = attrStr.length;
	let i = 0;
	while (i < len) {
		const tokenStart = i;
		while (i < len && isWhiteSpace(attrStr[i])) i++;
		if (i >= len) break;
		if (attrStr[i] === "=") {
			i++;
			continue;
		}
		const leadingWs = attrStr.slice(tokenStart, i);
		const nameStart = i;
		while (i < len && !isWhiteSpace(attrStr[i]) && attrStr[i] !== "=") i++;
		const name = attrStr.slice(nameStart, i);
		let equalsGroup;
		let j = i;
		while (j < len && isWhiteSpace(attrStr[j])) j++;
		if (j < len && attrStr[j] === "=") {
			equalsGroup = attrStr.slice(i, j + 1);
			i = j + 1;
		}
		let quoteChar;
		let value;
		let k = i;
		while (k < len && isWhiteSpace(attrStr[k])) k++;
		if (k < len && (attrStr[k] === "\"" || attrStr[k] === "'")) {
			const valueStart = k + 1;
			const closeIdx = attrStr.indexOf(attrStr[k], valueStart);
			if (closeIdx !== -1) {
				quoteChar = attrStr[k];
				value = attrStr.slice(valueStart, closeIdx);
				i = closeIdx + 1;
			}
		}
		const token = { startIndex: tokenStart };
		token[1] = leadingWs;
		token[2] = name;
		token[3] = equalsGroup;
		token[4] = quoteChar !== void 0 ? true : void 0;
		token[5] = quoteChar;
		token[6] = value;
		tokens.push(token);
	}
	return tokens;
}
function validateAttributeString(attrStr, options) {
	const matches = scanAttributeTokens(attrStr);
	const attrNames = {};
	for (let i = 0; i < matches.length; i++) {
		if (matches[i][1].length === 0) return getErrorObject("InvalidAttr", "Attribute '" + matches[i][2] + "' has no space in starting.", getPositionFromMatch(matches[i]));
		else if (matches[i][3] !== void 0 && matches[i][4] === void 0) return getErrorObject("InvalidAttr", "Attribute '" + matches[i][2] + "' is without value.", getPositionFromMatch(matches[i]));
		else if (matches[i][3] === void 0 && !options.allowBooleanAttributes) return getErrorObject("InvalidAttr", "boolean attribute '" + matches[i][2] + "' is not allowed.", getPositionFromMatch(matches[i]));
		const attrName = matches[i][2];
		if (!validateAttrName(attrName)) return getErrorObject("InvalidAttr", "Attribute '" + attrName + "' is an invalid name.", getPositionFromMatch(matches[i]));
		if (!Object.prototype.hasOwnProperty.call(attrNames, attrName)) attrNames[attrName] = 1;
		else return getErrorObject("InvalidAttr", "Attribute '" + attrName + "' is repeated.", getPositionFromMatch(matches[i]));
	}
	return true;
}
function validateNumberAmpersand(xmlData, i) {
	let re = /\d/;
	if (xmlData[i] === "x") {
		i++;
		re = /[\da-fA-F]/;
	}
	for (; i < xmlData.length; i++) {
		if (xmlData[i] === ";") return i;
		if (!xmlData[i].match(re)) break;
	}
	return -1;
}
function validateAmpersand(xmlData, i) {
	i++;
	if (xmlData[i] === ";") return -1;
	if (xmlData[i] === "#") {
		i++;
		return validateNumberAmpersand(xmlData, i);
	}
	let count = 0;
	for (; i < xmlData.length; i++, count++) {
		if (xmlData[i].match(/\w/) && count < 20) continue;
		if (xmlData[i] === ";") break;
		return -1;
	}
	return i;
}
function getErrorObject(code, message, lineNumber) {
	return { err: {
		code,
		msg: message,
		line: lineNumber.line || lineNumber,
		col: lineNumber.col
	} };
}
function validateAttrName(attrName) {
	return isName(attrName);
}
function validateTagName(tagname) {
	return isName(tagname);
}
function getLineNumberForPosition(xmlData, index) {
	const lines = xmlData.substring(0, index).split(/\r?\n/);
	return {
		line: lines.length,
		col: lines[lines.length - 1].length + 1
	};
}
function getPositionFromMatch(match) {
	return match.startIndex + match[1].length;
}
// ../../work/wt-reader/node_modules/@nodable/entities/src/entities.js
/**
* Currency Symbols
* @type {Record<string, string>}
*/
var CURRENCY = {
	cent: "¢",
	pound: "£",
	curren: "¤",
	yen: "¥",
	euro: "€",
	dollar: "$",
	fnof: "ƒ",
	inr: "₹",
	af: "؋",
	birr: "ብር",
	peso: "₱",
	rub: "₽",
	won: "₩",
	yuan: "¥",
	cedil: "¸"
};
var XML = {
	amp: "&",
	apos: "'",
	gt: ">",
	lt: "<",
	quot: "\""
};
var COMMON_HTML = {
	nbsp: "\xA0",
	copy: "©",
	reg: "®",
	trade: "™",
	mdash: "—",
	ndash: "–",
	hellip: "…",
	laquo: "«",
	raquo: "»",
	lsquo: "‘",
	rsquo: "’",
	ldquo: "“",
	rdquo: "”",
	bull: "•",
	para: "¶",
	sect: "§",
	deg: "°",
	frac12: "½",
	frac14: "¼",
	frac34: "¾"
};
// ../../work/wt-reader/node_modules/@nodable/entities/src/EntityDecoder.js
/**
* Action constants for `onExternalEntity` and `onInputEntity` hooks.
*
* Use these instead of raw strings to avoid typos:
*
* @example
* import EntityDecoder, { ENTITY_ACTION } from './EntityDecoder.js';
* const dec = new EntityDecoder({
*   onInputEntity: (name, value) => ENTITY_ACTION.BLOCK,
* });
*/
var ENTITY_ACTION = Object.freeze({
	/** Resolve and expand the entity normally. */
	ALLOW: "allow",
	/** Silently skip this entity — it will not be registered. */
	BLOCK: "block",
	/** Throw an error, aborting entity registration entirely. */
	THROW: "throw"
});
var SPECIAL_CHARS = /* @__PURE__ */ new Set("!?\\\\/[]$%{}^&*()<>|+");
/**
* Validate that an entity name contains no dangerous characters.
* @param {string} name
* @returns {string} the name, unchanged
* @throws {Error} on invalid characters
*/
function validateEntityName$1(name) {
	if (name[0] === "#") throw new Error(`[EntityReplacer] Invalid character '#' in entity name: "${name}"`);
	for (const ch of name) if (SPECIAL_CHARS.has(ch)) throw new Error(`[EntityReplacer] Invalid character '${ch}' in entity name: "${name}"`);
	return name;
}
/**
* Merge one or more entity maps into a flat name→string map.
* Accepts either:
*   - plain string values:             { amp: '&' }
*   - legacy {regex,val} / {regx,val}: { lt: { regex: /.../, val: '<' } }
*
* Values containing '&' are skipped (recursive expansion risk).
*
* @param {...object} maps
* @returns {Record<string, string>}
*/
function mergeEntityMaps(...maps) {
	const out = Object.create(null);
	for (const map of maps) {
		if (!map) continue;
		for (const key of Object.keys(map)) {
			const raw = map[key];
			if (typeof raw === "string") out[key] = raw;
			else if (raw && typeof raw === "object" && raw.val !== void 0) {
				const val = raw.val;
				if (typeof val === "string") out[key] = val;
			}
		}
	}
	return out;
}
var LIMIT_TIER_EXTERNAL = "external";
var LIMIT_TIER_BASE = "base";
var LIMIT_TIER_ALL = "all";
/**
* Resolve `applyLimitsTo` option into a normalised Set of tier strings.
* Accepted values: 'external' | 'base' | 'all' | string[]
* Default: 'external' (only untrusted injected entities are counted).
* @param {string|string[]|undefined} raw
* @returns {Set<string>}
*/
function parseLimitTiers(raw) {
	if (!raw || raw === LIMIT_TIER_EXTERNAL) return /* @__PURE__ */ new Set([LIMIT_TIER_EXTERNAL]);
	if (raw === LIMIT_TIER_ALL) return /* @__PURE__ */ new Set([LIMIT_TIER_ALL]);
	if (raw === LIMIT_TIER_BASE) return /* @__PURE__ */ new Set([LIMIT_TIER_BASE]);
	if (Array.isArray(raw)) return new Set(raw);
	return /* @__PURE__ */ new Set([LIMIT_TIER_EXTERNAL]);
}
var NCR_LEVEL = Object.freeze({
	allow: 0,
	leave: 1,
	remove: 2,
	throw: 3
});
var XML10_ALLOWED_C0 = /* @__PURE__ */ new Set([
	9,
	10,
	13
]);
/**
* Parse the `ncr` constructor option into flat, hot-path-friendly fields.
* @param {object|undefined} ncr
* @returns {{ xmlVersion: number, onLevel: number, nullLevel: number }}
*/
function parseNCRConfig(ncr) {
	if (!ncr) return {
		xmlVersion: 1,
		onLevel: NCR_LEVEL.allow,
		nullLevel: NCR_LEVEL.remove
	};
	const xmlVersion = ncr.xmlVersion === 1.1 ? 1.1 : 1;
	const onLevel = NCR_LEVEL[ncr.onNCR] ?? NCR_LEVEL.allow;
	const nullLevel = NCR_LEVEL[ncr.nullNCR] ?? NCR_LEVEL.remove;
	return {
		xmlVersion,
		onLevel,
		nullLevel: Math.max(nullLevel, NCR_LEVEL.remove)
	};
}
/**
* Single-pass, zero-regex entity replacer for XML/HTML content.
*
* Algorithm: scan the string once for '&', read to ';', resolve via map
* or direct codepoint conversion, build output chunks, join once at the end.
*
* Entity lookup priority (highest → lowest):
*   1. input / runtime  (DOCTYPE entities for current document)
*   2. persistent external (survive across documents)
*   3. base named map   (DEFAULT_XML_ENTITIES + user-supplied namedEntities)
*
* Both input and external resolve as the 'external' tier for limit purposes.
* Base map entities resolve as the 'base' tier.
*
* Numeric / hex references (&#NNN; / &#xHH;) are resolved directly via
* String.fromCodePoint() — no map needed. They count as 'base' tier.
*
* @example
* const replacer = new EntityReplacer({ namedEntities: COMMON_HTML });
* replacer.setExternalEntities({ brand: 'Acme' });
*
* const instance = replacer.reset();
* instance.addInputEntities({ version: '1.0' });
* instance.encode('&brand; v&version; &lt;'); // 'Acme v1.0 <'
*/
var EntityDecoder = class {
	/**
	* @param {object} [options]
	* @param {object|null}  [options.namedEntities]        — extra named entities merged into base map
	* @param {object}  [options.limit]                 — security limits
	* @param {number}       [options.limit.maxTotalExpansions=0]  — 0 = unlimited
	* @param {number}       [options.limit.maxExpandedLength=0]   — 0 = unlimited
	* @param {'external'|'base'|'all'|string[]} [options.limit.applyLimitsTo='external']
	*   Which entity tiers count against the security limits:
	*   - 'external' (default) — only input/runtime + persistent external entities
	*   - 'base'               — only DEFAULT_XML_ENTITIES + namedEntities
	*   - 'all'                — every entity regardless of tier
	*   - string[]             — explicit combination, e.g. ['external', 'base']
	* @param {((resolved: string, original: string) => string)|null} [options.postCheck=null]
	* @param {string[]} [options.remove=[]] — entity names (e.g. ['nbsp', '#13']) to delete (replace with empty string)
	* @param {string[]} [options.leave=[]]  — entity names to keep as literal (unchanged in output)
	* @param {object}   [options.ncr]       — Numeric Character Reference controls
	* @param {1.0|1.1}  [options.ncr.xmlVersion=1.0]
	*   XML version governing which codepoint ranges are restricted:
	*   - 1.0 — C0 controls U+0001–U+001F (except U+0009/000A/000D) are prohibited
	*   - 1.1 — C0 controls are allowed when written as NCRs; C1 (U+007F–U+009F) decoded as-is
	* @param {'allow'|'leave'|'remove'|'throw'} [options.ncr.onNCR='allow']
	*   Base action for numeric references. Severity order: allow < leave < remove < throw.
	*   For codepoint ranges that carry a minimum level (surrogates → remove, XML 1.0 C0 → remove),
	*   the effective action is max(onNCR, rangeMinimum).
	* @param {'remove'|'throw'} [options.ncr.nullNCR='remove']
	*   Action for U+0000 (null). 'allow' and 'leave' are clamped to 'remove' since null is never safe.
	* @param {((name: string, value: string) => 'allow'|'block'|'throw')|null} [options.onExternalEntity=null]
	*   Hook called when an external entity is registered via `setExternalEntities()` or
	*   `addExternalEntity()`. Return `ENTITY_ACTION.ALLOW` to accept the entity,
	*   `ENTITY_ACTION.BLOCK` to silently skip it, or `ENTITY_ACTION.THROW` to abort with an error.
	* @param {((name: string, value: string) => 'allow'|'block'|'throw')|null} [options.onInputEntity=null]
	*   Hook called when an input entity is registered via `addInputEntities()`. Return
	*   `ENTITY_ACTION.ALLOW` to accept, `ENTITY_ACTION.BLOCK` to silently skip, or
	*   `ENTITY_ACTION.THROW` to abort with an error.
	*/
	constructor(options = {}) {
		this._limit = options.limit || {};
		this._maxTotalExpansions = this._limit.maxTotalExpansions || 0;
		this._maxExpandedLength = this._limit.maxExpandedLength || 0;
		this._postCheck = typeof options.postCheck === "function" ? options.postCheck : (r) => r;
		this._limitTiers = parseLimitTiers(this._limit.applyLimitsTo ?? LIMIT_TIER_EXTERNAL);
		this._numericAllowed = options.numericAllowed ?? true;
		this._baseMap = mergeEntityMaps(XML, options.namedEntities || null);
		/** @type {Record<string, string>} */
		this._externalMap = Object.create(null);
		/** @type {Record<string, string>} */
		this._inputMap = Object.create(null);
		this._totalExpansions = 0;
		this._expandedLength = 0;
		/** @type {Set<string>} */
		this._removeSet = new Set(options.remove && Array.isArray(options.remove) ? options.remove : []);
		/** @type {Set<string>} */
		this._leaveSet = new Set(options.leave && Array.isArray(options.leave) ? options.leave : []);
		const ncrCfg = parseNCRConfig(options.ncr);
		this._ncrXmlVersion = ncrCfg.xmlVersion;
		this._ncrOnLevel = ncrCfg.onLevel;
		this._ncrNullLevel = ncrCfg.nullLevel;
		/** @type {((name: string, value: string) => 'allow'|'block'|'throw')|null} */
		this._onExternalEntity = typeof options.onExternalEntity === "function" ? options.onExternalEntity : null;
		/** @type {((name: string, value: string) => 'allow'|'block'|'throw')|null} */
		this._onInputEntity = typeof options.onInputEntity === "function" ? options.onInputEntity : null;
	}
	/**
	* Invoke a registration hook for a single entity name/value pair.
	* Returns true when the entity should be accepted, false when it should be
	* silently skipped (BLOCK), and throws when the hook returns THROW.
	*
	* @param {((name: string, value: string) => 'allow'|'block'|'throw')|null} hook
	* @param {string} name
	* @param {string} value
	* @param {string} context  — used in error messages ('external' | 'input')
	* @returns {boolean}  true = accept, false = skip
	*/
	_applyRegistrationHook(hook, name, value, context) {
		if (!hook) return true;
		const action = hook(name, value);
		if (action === ENTITY_ACTION.BLOCK) return false;
		if (action === ENTITY_ACTION.THROW) throw new Error(`[EntityDecoder] Registration of ${context} entity "&${name};" was rejected by hook`);
		return true;
	}
	/**
	* Replace the full set of persistent external entities.
	* All keys are validated — throws on invalid characters.
	* If `onExternalEntity` is set, it is called once per entry; entries that
	* return `ENTITY_ACTION.BLOCK` are silently omitted, `ENTITY_ACTION.THROW`
	* aborts the whole call.
	* @param {Record<string, string | { regex?: RegExp, val: string }>} map
	*/
	setExternalEntities(map) {
		if (map) for (const key of Object.keys(map)) validateEntityName$1(key);
		if (!this._onExternalEntity) {
			this._externalMap = mergeEntityMaps(map);
			return;
		}
		const flat = mergeEntityMaps(map);
		const filtered = Object.create(null);
		for (const [name, value] of Object.entries(flat)) if (this._applyRegistrationHook(this._onExternalEntity, name, value, "external")) filtered[name] = value;
		this._externalMap = filtered;
	}
	/**
	* Add a single persistent external entity.
	* If `onExternalEntity` is set it is called before the entity is stored;
	* `ENTITY_ACTION.BLOCK` silently skips storage, `ENTITY_ACTION.THROW` raises.
	* @param {string} key
	* @param {string} value
	*/
	addExternalEntity(key, value) {
		validateEntityName$1(key);
		if (typeof value === "string" && value.indexOf("&") === -1) {
			if (this._applyRegistrationHook(this._onExternalEntity, key, value, "external")) this._externalMap[key] = value;
		}
	}
	/**
	* Inject DOCTYPE entities for the current document.
	* Also resets per-document expansion counters.
	* If `onInputEntity` is set it is called once per entry; entries returning
	* `ENTITY_ACTION.BLOCK` are silently omitted, `ENTITY_ACTION.THROW` aborts.
	* @param {Record<string, string | { regx?: RegExp, regex?: RegExp, val: string }>} map
	*/
	addInputEntities(map) {
		this._totalExpansions = 0;
		this._expandedLength = 0;
		if (!this._onInputEntity) {
			this._inputMap = mergeEntityMaps(map);
			return;
		}
		const flat = mergeEntityMaps(map);
		const filtered = Object.create(null);
		for (const [name, value] of Object.entries(flat)) if (this._applyRegistrationHook(this._onInputEntity, name, value, "input")) filtered[name] = value;
		this._inputMap = filtered;
	}
	/**
	* Wipe input/runtime entities and reset counters.
	* Call this before processing each new document.
	* @returns {this}
	*/
	reset() {
		this._inputMap = Object.create(null);
		this._totalExpansions = 0;
		this._expandedLength = 0;
		return this;
	}
	/**
	* Update the XML version used for NCR classification.
	* Call this as soon as the document's `<?xml version="...">` declaration is parsed.
	* @param {1.0|1.1|number} version
	*/
	setXmlVersion(version) {
		this._ncrXmlVersion = version === 1.1 ? 1.1 : 1;
	}
	/**
	* Replace all entity references in `str` in a single pass.
	*
	* @param {string} str
	* @returns {string}
	*/
	decode(str) {
		if (typeof str !== "string" || str.length === 0) return str;
		if (str.indexOf("&") === -1) return str;
		const original = str;
		const chunks = [];
		const len = str.length;
		let last = 0;
		let i = 0;
		const limitExpansions = this._maxTotalExpansions > 0;
		const limitLength = this._maxExpandedLength > 0;
		const checkLimits = limitExpansions || limitLength;
		while (i < len) {
			if (str.charCodeAt(i) !== 38) {
				i++;
				continue;
			}
			let j = i + 1;
			while (j < len && str.charCodeAt(j) !== 59 && j - i <= 32) j++;
			if (j >= len || str.charCodeAt(j) !== 59) {
				i++;
				continue;
			}
			const token = str.slice(i + 1, j);
			if (token.length === 0) {
				i++;
				continue;
			}
			let replacement;
			let tier;
			if (this._removeSet.has(token)) {
				replacement = "";
				if (tier === void 0) tier = LIMIT_TIER_EXTERNAL;
			} else if (this._leaveSet.has(token)) {
				i++;
				continue;
			} else if (token.charCodeAt(0) === 35) {
				const ncrResult = this._resolveNCR(token);
				if (ncrResult === void 0) {
					i++;
					continue;
				}
				replacement = ncrResult;
				tier = LIMIT_TIER_BASE;
			} else {
				const resolved = this._resolveName(token);
				replacement = resolved?.value;
				tier = resolved?.tier;
			}
			if (replacement === void 0) {
				i++;
				continue;
			}
			if (i > last) chunks.push(str.slice(last, i));
			chunks.push(replacement);
			last = j + 1;
			i = last;
			if (checkLimits && this._tierCounts(tier)) {
				if (limitExpansions) {
					this._totalExpansions++;
					if (this._totalExpansions > this._maxTotalExpansions) throw new Error(`[EntityReplacer] Entity expansion count limit exceeded: ${this._totalExpansions} > ${this._maxTotalExpansions}`);
				}
				if (limitLength) {
					const delta = replacement.length - (token.length + 2);
					if (delta > 0) {
						this._expandedLength += delta;
						if (this._expandedLength > this._maxExpandedLength) throw new Error(`[EntityReplacer] Expanded content length limit exceeded: ${this._expandedLength} > ${this._maxExpandedLength}`);
					}
				}
			}
		}
		if (last < len) chunks.push(str.slice(last));
		const result = chunks.length === 0 ? str : chunks.join("");
		return this._postCheck(result, original);
	}
	/**
	* Returns true if a resolved entity of the given tier should count
	* against the expansion/length limits.
	* @param {string} tier  — LIMIT_TIER_EXTERNAL | LIMIT_TIER_BASE
	* @returns {boolean}
	*/
	_tierCounts(tier) {
		if (this._limitTiers.has(LIMIT_TIER_ALL)) return true;
		return this._limitTiers.has(tier);
	}
	/**
	* Resolve a named entity token (without & and ;).
	* Priority: inputMap > externalMap > baseMap
	* Returns the resolved value tagged with its limit tier.
	*
	* @param {string} name
	* @returns {{ value: string, tier: string }|undefined}
	*/
	_resolveName(name) {
		if (name in this._inputMap) return {
			value: this._inputMap[name],
			tier: LIMIT_TIER_EXTERNAL
		};
		if (name in this._externalMap) return {
			value: this._externalMap[name],
			tier: LIMIT_TIER_EXTERNAL
		};
		if (name in this._baseMap) return {
			value: this._baseMap[name],
			tier: LIMIT_TIER_BASE
		};
	}
	/**
	* Classify a codepoint and return the minimum action level that must be applied.
	* Returns -1 when no minimum is imposed (normal allow path).
	*
	* Ranges checked (in priority order):
	*   1. U+0000            — null, governed by nullNCR (always ≥ remove)
	*   2. U+D800–U+DFFF     — surrogates, always prohibited (min: remove)
	*   3. U+0001–U+001F \ {0x09,0x0A,0x0D}  — XML 1.0 restricted C0 (min: remove)
	*      (skipped in XML 1.1 — C0 controls are allowed when written as NCRs)
	*
	* @param {number} cp  — codepoint
	* @returns {number}   — minimum NCR_LEVEL value, or -1 for no restriction
	*/
	_classifyNCR(cp) {
		if (cp === 0) return this._ncrNullLevel;
		if (cp >= 55296 && cp <= 57343) return NCR_LEVEL.remove;
		if (this._ncrXmlVersion === 1) {
			if (cp >= 1 && cp <= 31 && !XML10_ALLOWED_C0.has(cp)) return NCR_LEVEL.remove;
		}
		return -1;
	}
	/**
	* Execute a resolved NCR action.
	*
	* @param {number} action   — NCR_LEVEL value
	* @param {string} token    — raw token (e.g. '#38') for error messages
	* @param {number} cp       — codepoint, used only for error messages
	* @returns {string|undefined}
	*   - decoded character string  → 'allow'
	*   - ''                        → 'remove'
	*   - undefined                 → 'leave' (caller must skip past '&' only)
	*   - throws Error              → 'throw'
	*/
	_applyNCRAction(action, token, cp) {
		switch (action) {
			case NCR_LEVEL.allow: return String.fromCodePoint(cp);
			case NCR_LEVEL.remove: return "";
			case NCR_LEVEL.leave: return;
			case NCR_LEVEL.throw: throw new Error(`[EntityDecoder] Prohibited numeric character reference &${token}; (U+${cp.toString(16).toUpperCase().padStart(4, "0")})`);
			default: return String.fromCodePoint(cp);
		}
	}
	/**
	* Full NCR resolution pipeline for a numeric token.
	*
	* Steps:
	*   1. Parse the codepoint (decimal or hex).
	*   2. Validate the raw codepoint range (NaN, <0, >0x10FFFF).
	*   3. If numericAllowed is false and no minimum restriction applies → leave as-is.
	*   4. Classify the codepoint to find the minimum required action level.
	*   5. Resolve effective action = max(onNCR, minimum).
	*   6. Apply and return.
	*
	* @param {string} token  — e.g. '#38', '#x26', '#X26'
	* @returns {string|undefined}
	*   - string (incl. '')  — replacement ('' = remove)
	*   - undefined          — leave original &token; as-is
	*/
	_resolveNCR(token) {
		const second = token.charCodeAt(1);
		let cp;
		if (second === 120 || second === 88) cp = parseInt(token.slice(2), 16);
		else cp = parseInt(token.slice(1), 10);
		if (Number.isNaN(cp) || cp < 0 || cp > 1114111) return void 0;
		const minimum = this._classifyNCR(cp);
		if (!this._numericAllowed && minimum < NCR_LEVEL.remove) return void 0;
		const effective = minimum === -1 ? this._ncrOnLevel : Math.max(this._ncrOnLevel, minimum);
		return this._applyNCRAction(effective, token, cp);
	}
};
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/OptionsBuilder.js
var defaultOnDangerousProperty = (name) => {
	if (DANGEROUS_PROPERTY_NAMES.includes(name)) return "__" + name;
	return name;
};
var defaultOptions = {
	preserveOrder: false,
	attributeNamePrefix: "@_",
	attributesGroupName: false,
	textNodeName: "#text",
	ignoreAttributes: true,
	removeNSPrefix: false,
	allowBooleanAttributes: false,
	parseTagValue: true,
	parseAttributeValue: false,
	trimValues: true,
	cdataPropName: false,
	numberParseOptions: {
		hex: true,
		leadingZeros: true,
		eNotation: true,
		unicode: false
	},
	tagValueProcessor: function(tagName, val) {
		return val;
	},
	attributeValueProcessor: function(attrName, val) {
		return val;
	},
	stopNodes: [],
	alwaysCreateTextNode: false,
	isArray: () => false,
	commentPropName: false,
	unpairedTags: [],
	processEntities: true,
	htmlEntities: false,
	entityDecoder: null,
	ignoreDeclaration: false,
	ignorePiTags: false,
	transformTagName: false,
	transformAttributeName: false,
	updateTag: function(tagName, jPath, attrs) {
		return tagName;
	},
	captureMetaData: false,
	maxNestedTags: 100,
	strictReservedNames: true,
	jPath: true,
	onDangerousProperty: defaultOnDangerousProperty
};
/**
* Validates that a property name is safe to use
* @param {string} propertyName - The property name to validate
* @param {string} optionName - The option field name (for error message)
* @throws {Error} If property name is dangerous
*/
function validatePropertyName(propertyName, optionName) {
	if (typeof propertyName !== "string") return;
	const normalized = propertyName.toLowerCase();
	if (DANGEROUS_PROPERTY_NAMES.some((dangerous) => normalized === dangerous.toLowerCase())) throw new Error(`[SECURITY] Invalid ${optionName}: "${propertyName}" is a reserved JavaScript keyword that could cause prototype pollution`);
	if (criticalProperties.some((dangerous) => normalized === dangerous.toLowerCase())) throw new Error(`[SECURITY] Invalid ${optionName}: "${propertyName}" is a reserved JavaScript keyword that could cause prototype pollution`);
}
/**
* Normalizes processEntities option for backward compatibility
* @param {boolean|object} value 
* @returns {object} Always returns normalized object
*/
function normalizeProcessEntities(value, htmlEntities) {
	if (typeof value === "boolean") return {
		enabled: value,
		maxEntitySize: 1e4,
		maxExpansionDepth: 1e4,
		maxTotalExpansions: Infinity,
		maxExpandedLength: 1e5,
		maxEntityCount: 1e3,
		allowedTags: null,
		tagFilter: null,
		appliesTo: "all"
	};
	if (typeof value === "object" && value !== null) return {
		enabled: value.enabled !== false,
		maxEntitySize: Math.max(1, value.maxEntitySize ?? 1e4),
		maxExpansionDepth: Math.max(1, value.maxExpansionDepth ?? 1e4),
		maxTotalExpansions: Math.max(1, value.maxTotalExpansions ?? Infinity),
		maxExpandedLength: Math.max(1, value.maxExpandedLength ?? 1e5),
		maxEntityCount: Math.max(1, value.maxEntityCount ?? 1e3),
		allowedTags: value.allowedTags ?? null,
		tagFilter: value.tagFilter ?? null,
		appliesTo: value.appliesTo ?? "all"
	};
	return normalizeProcessEntities(true);
}
var buildOptions = function(options) {
	const built = Object.assign({}, defaultOptions, options);
	const propertyNameOptions = [
		{
			value: built.attributeNamePrefix,
			name: "attributeNamePrefix"
		},
		{
			value: built.attributesGroupName,
			name: "attributesGroupName"
		},
		{
			value: built.textNodeName,
			name: "textNodeName"
		},
		{
			value: built.cdataPropName,
			name: "cdataPropName"
		},
		{
			value: built.commentPropName,
			name: "commentPropName"
		}
	];
	for (const { value, name } of propertyNameOptions) if (value) validatePropertyName(value, name);
	if (built.onDangerousProperty === null) built.onDangerousProperty = defaultOnDangerousProperty;
	built.processEntities = normalizeProcessEntities(built.processEntities, built.htmlEntities);
	built.unpairedTagsSet = new Set(built.unpairedTags);
	if (built.stopNodes && Array.isArray(built.stopNodes)) built.stopNodes = built.stopNodes.map((node) => {
		if (typeof node === "string" && node.startsWith("*.")) return ".." + node.substring(2);
		return node;
	});
	return built;
};
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/xmlNode.js
var METADATA_SYMBOL$1;
if (typeof Symbol !== "function") METADATA_SYMBOL$1 = "@@xmlMetadata";
else METADATA_SYMBOL$1 = Symbol("XML Node Metadata");
var XmlNode = class {
	constructor(tagname) {
		this.tagname = tagname;
		this.child = [];
		this[":@"] = Object.create(null);
	}
	add(key, val) {
		if (key === "__proto__") key = "#__proto__";
		this.child.push({ [key]: val });
	}
	addChild(node, startIndex) {
		if (node.tagname === "__proto__") node.tagname = "#__proto__";
		if (node[":@"] && Object.keys(node[":@"]).length > 0) this.child.push({
			[node.tagname]: node.child,
			[":@"]: node[":@"]
		});
		else this.child.push({ [node.tagname]: node.child });
		this.addStartIndex(startIndex);
	}
	addStartIndex(startIndex) {
		if (startIndex !== void 0) this.child[this.child.length - 1][METADATA_SYMBOL$1] = { startIndex };
	}
	addEndIndex(endIndex) {
		const lastChild = this.child[this.child.length - 1];
		if (lastChild !== void 0 && lastChild[METADATA_SYMBOL$1] !== void 0 && lastChild[METADATA_SYMBOL$1].endIndex === void 0) lastChild[METADATA_SYMBOL$1].endIndex = endIndex;
	}
	/** symbol used for metadata */
	static getMetaDataSymbol() {
		return METADATA_SYMBOL$1;
	}
};
// ../../work/wt-reader/node_modules/xml-naming/src/index.js
/**
* xml-naming
* Validates XML Name productions as defined in the XML 1.0 and 1.1 specifications.
* Covers: Name, NCName, QName, NMToken, NMTokens
*
* XML 1.0 spec: https://www.w3.org/TR/xml/#NT-Name
* XML 1.1 spec: https://www.w3.org/TR/xml11/#NT-NameStartChar
* XML NS spec:  https://www.w3.org/TR/xml-names/#NT-NCName
*/
var nameStartChar10 = ":A-Za-z_À-ÖØ-öø-˿Ͱ-ͽͿ-҆҈-῿‌-‍⁰-↏Ⰰ-⿯、-퟿豈-﷏ﷰ-�";
var nameChar10 = nameStartChar10 + "\\-\\.\\d·̀-ͯ‿-⁀";
var nameStartChar11 = ":A-Za-z_À-˿Ͱ-ͽͿ-҆҈-῿‌-‍⁰-↏Ⰰ-⿯、-퟿豈-﷏ﷰ-�𐀀-󯿿";
var nameChar11 = nameStartChar11 + "\\-\\.\\d·̀-ͯ҇‿-⁀";
var buildRegexes = (startChar, char, flags = "") => {
	const ncNamePat = `[${startChar.replace(":", "")}][${char.replace(":", "")}]*`;
	return {
		name: new RegExp(`^[${startChar}][${char}]*$`, flags),
		ncName: new RegExp(`^${ncNamePat}$`, flags),
		qName: new RegExp(`^${ncNamePat}(?::${ncNamePat})?$`, flags),
		nmToken: new RegExp(`^[${char}]+$`, flags),
		nmTokens: new RegExp(`^[${char}]+(?:\\s+[${char}]+)*$`, flags)
	};
};
var regexes10 = buildRegexes(nameStartChar10, nameChar10);
var regexes11 = buildRegexes(nameStartChar11, nameChar11, "u");
var regexesAscii = buildRegexes(":A-Za-z_", ":A-Za-z_\\-\\.\\d");
var getRegexes = (xmlVersion = "1.0", asciiOnly = false) => {
	if (asciiOnly) return regexesAscii;
	return xmlVersion === "1.1" ? regexes11 : regexes10;
};
/**
* Returns true if the string is a valid QName (Qualified Name).
* Allows exactly one colon as a prefix separator: prefix:localName.
* Used for: element and attribute names in namespace-aware XML/SVG.
*
* @param {{ xmlVersion?: '1.0'|'1.1', asciiOnly?: boolean }} [opts]
*   asciiOnly: skip unicode-aware matching, ASCII names only (default false).
*/
var qName = (str, { xmlVersion = "1.0", asciiOnly = false } = {}) => getRegexes(xmlVersion, asciiOnly).qName.test(str);
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/DocTypeReader.js
var DocTypeReader = class {
	constructor(options, xmlVersion) {
		this.suppressValidationErr = !options;
		this.options = options;
		this.xmlVersion = xmlVersion || 1;
	}
	setXmlVersion(xmlVersion = 1) {
		this.xmlVersion = xmlVersion;
	}
	readDocType(xmlData, i) {
		const entities = Object.create(null);
		let entityCount = 0;
		if (xmlData[i + 3] === "O" && xmlData[i + 4] === "C" && xmlData[i + 5] === "T" && xmlData[i + 6] === "Y" && xmlData[i + 7] === "P" && xmlData[i + 8] === "E") {
			i = i + 9;
			let angleBracketsCount = 1;
			let hasBody = false, comment = false;
			let quoteChar = null;
			let exp = "";
			for (; i < xmlData.length; i++) {
				if (quoteChar !== null) {
					if (xmlData[i] === quoteChar) quoteChar = null;
					exp += xmlData[i];
					continue;
				}
				if (!hasBody && !comment && (xmlData[i] === "\"" || xmlData[i] === "'")) {
					quoteChar = xmlData[i];
					exp += xmlData[i];
					continue;
				}
				if (xmlData[i] === "<" && !comment) {
					if (hasBody && hasSeq(xmlData, "!ENTITY", i)) {
						i += 7;
						let entityName, val;
						[entityName, val, i] = this.readEntityExp(xmlData, i + 1, this.suppressValidationErr);
						if (val.indexOf("&") === -1) {
							if (this.options.enabled !== false && this.options.maxEntityCount != null && entityCount >= this.options.maxEntityCount) throw new Error(`Entity count (${entityCount + 1}) exceeds maximum allowed (${this.options.maxEntityCount})`);
							entities[entityName] = val;
							entityCount++;
						}
					} else if (hasBody && hasSeq(xmlData, "!ELEMENT", i)) {
						i += 8;
						const { index } = this.readElementExp(xmlData, i + 1);
						i = index;
					} else if (hasBody && hasSeq(xmlData, "!ATTLIST", i)) i += 8;
					else if (hasBody && hasSeq(xmlData, "!NOTATION", i)) {
						i += 9;
						const { index } = this.readNotationExp(xmlData, i + 1, this.suppressValidationErr);
						i = index;
					} else if (hasSeq(xmlData, "!--", i)) comment = true;
					else throw new Error(`Invalid DOCTYPE`);
					angleBracketsCount++;
					exp = "";
				} else if (xmlData[i] === ">") {
					if (comment) {
						if (xmlData[i - 1] === "-" && xmlData[i - 2] === "-") {
							comment = false;
							angleBracketsCount--;
						}
					} else angleBracketsCount--;
					if (angleBracketsCount === 0) break;
				} else if (xmlData[i] === "[") hasBody = true;
				else exp += xmlData[i];
			}
			if (quoteChar !== null || angleBracketsCount !== 0) throw new Error(`Unclosed DOCTYPE`);
		} else throw new Error(`Invalid Tag instead of DOCTYPE`);
		return {
			entities,
			i
		};
	}
	readEntityExp(xmlData, i) {
		i = skipWhitespace(xmlData, i);
		const startIndex = i;
		while (i < xmlData.length && !/\s/.test(xmlData[i]) && xmlData[i] !== "\"" && xmlData[i] !== "'") i++;
		let entityName = xmlData.substring(startIndex, i);
		validateEntityName(entityName, { xmlVersion: this.xmlVersion });
		i = skipWhitespace(xmlData, i);
		if (!this.suppressValidationErr) {
			if (xmlData.substring(i, i + 6).toUpperCase() === "SYSTEM") throw new Error("External entities are not supported");
			else if (xmlData[i] === "%") throw new Error("Parameter entities are not supported");
		}
		let entityValue = "";
		[i, entityValue] = this.readIdentifierVal(xmlData, i, "entity");
		if (this.options.enabled !== false && this.options.maxEntitySize != null && entityValue.length > this.options.maxEntitySize) throw new Error(`Entity "${entityName}" size (${entityValue.length}) exceeds maximum allowed size (${this.options.maxEntitySize})`);
		i--;
		return [
			entityName,
			entityValue,
			i
		];
	}
	readNotationExp(xmlData, i) {
		i = skipWhitespace(xmlData, i);
		const startIndex = i;
		while (i < xmlData.length && !/\s/.test(xmlData[i])) i++;
		let notationName = xmlData.substring(startIndex, i);
		!this.suppressValidationErr && validateEntityName(notationName, { xmlVersion: this.xmlVersion });
		i = skipWhitespace(xmlData, i);
		const identifierType = xmlData.substring(i, i + 6).toUpperCase();
		if (!this.suppressValidationErr && identifierType !== "SYSTEM" && identifierType !== "PUBLIC") throw new Error(`Expected SYSTEM or PUBLIC, found "${identifierType}"`);
		i += identifierType.length;
		i = skipWhitespace(xmlData, i);
		let publicIdentifier = null;
		let systemIdentifier = null;
		if (identifierType === "PUBLIC") {
			[i, publicIdentifier] = this.readIdentifierVal(xmlData, i, "publicIdentifier");
			i = skipWhitespace(xmlData, i);
			if (xmlData[i] === "\"" || xmlData[i] === "'") [i, systemIdentifier] = this.readIdentifierVal(xmlData, i, "systemIdentifier");
		} else if (identifierType === "SYSTEM") {
			[i, systemIdentifier] = this.readIdentifierVal(xmlData, i, "systemIdentifier");
			if (!this.suppressValidationErr && !systemIdentifier) throw new Error("Missing mandatory system identifier for SYSTEM notation");
		}
		return {
			notationName,
			publicIdentifier,
			systemIdentifier,
			index: --i
		};
	}
	readIdentifierVal(xmlData, i, type) {
		let identifierVal = "";
		const startChar = xmlData[i];
		if (startChar !== "\"" && startChar !== "'") throw new Error(`Expected quoted string, found "${startChar}"`);
		i++;
		const startIndex = i;
		while (i < xmlData.length && xmlData[i] !== startChar) i++;
		identifierVal = xmlData.substring(startIndex, i);
		if (xmlData[i] !== startChar) throw new Error(`Unterminated ${type} value`);
		i++;
		return [i, identifierVal];
	}
	readElementExp(xmlData, i) {
		i = skipWhitespace(xmlData, i);
		const startIndex = i;
		while (i < xmlData.length && !/\s/.test(xmlData[i])) i++;
		let elementName = xmlData.substring(startIndex, i);
		if (!this.suppressValidationErr && !qName(elementName, { xmlVersion: this.xmlVersion })) throw new Error(`Invalid element name: "${elementName}"`);
		i = skipWhitespace(xmlData, i);
		let contentModel = "";
		if (xmlData[i] === "E" && hasSeq(xmlData, "MPTY", i)) i += 4;
		else if (xmlData[i] === "A" && hasSeq(xmlData, "NY", i)) i += 2;
		else if (xmlData[i] === "(") {
			i++;
			const startIndex = i;
			while (i < xmlData.length && xmlData[i] !== ")") i++;
			contentModel = xmlData.substring(startIndex, i);
			if (xmlData[i] !== ")") throw new Error("Unterminated content model");
		} else if (!this.suppressValidationErr) throw new Error(`Invalid Element Expression, found "${xmlData[i]}"`);
		return {
			elementName,
			contentModel: contentModel.trim(),
			index: i
		};
	}
	readAttlistExp(xmlData, i) {
		i = skipWhitespace(xmlData, i);
		let startIndex = i;
		while (i < xmlData.length && !/\s/.test(xmlData[i])) i++;
		let elementName = xmlData.substring(startIndex, i);
		validateEntityName(elementName, { xmlVersion: this.xmlVersion });
		i = skipWhitespace(xmlData, i);
		startIndex = i;
		while (i < xmlData.length && !/\s/.test(xmlData[i])) i++;
		let attributeName = xmlData.substring(startIndex, i);
		if (!validateEntityName(attributeName, { xmlVersion: this.xmlVersion })) throw new Error(`Invalid attribute name: "${attributeName}"`);
		i = skipWhitespace(xmlData, i);
		let attributeType = "";
		if (xmlData.substring(i, i + 8).toUpperCase() === "NOTATION") {
			attributeType = "NOTATION";
			i += 8;
			i = skipWhitespace(xmlData, i);
			if (xmlData[i] !== "(") throw new Error(`Expected '(', found "${xmlData[i]}"`);
			i++;
			let allowedNotations = [];
			while (i < xmlData.length && xmlData[i] !== ")") {
				const startIndex = i;
				while (i < xmlData.length && xmlData[i] !== "|" && xmlData[i] !== ")") i++;
				let notation = xmlData.substring(startIndex, i);
				notation = notation.trim();
				if (!validateEntityName(notation, { xmlVersion: this.xmlVersion })) throw new Error(`Invalid notation name: "${notation}"`);
				allowedNotations.push(notation);
				if (xmlData[i] === "|") {
					i++;
					i = skipWhitespace(xmlData, i);
				}
			}
			if (xmlData[i] !== ")") throw new Error("Unterminated list of notations");
			i++;
			attributeType += " (" + allowedNotations.join("|") + ")";
		} else {
			const startIndex = i;
			while (i < xmlData.length && !/\s/.test(xmlData[i])) i++;
			attributeType += xmlData.substring(startIndex, i);
			if (!this.suppressValidationErr && ![
				"CDATA",
				"ID",
				"IDREF",
				"IDREFS",
				"ENTITY",
				"ENTITIES",
				"NMTOKEN",
				"NMTOKENS"
			].includes(attributeType.toUpperCase())) throw new Error(`Invalid attribute type: "${attributeType}"`);
		}
		i = skipWhitespace(xmlData, i);
		let defaultValue = "";
		if (xmlData.substring(i, i + 8).toUpperCase() === "#REQUIRED") {
			defaultValue = "#REQUIRED";
			i += 8;
		} else if (xmlData.substring(i, i + 7).toUpperCase() === "#IMPLIED") {
			defaultValue = "#IMPLIED";
			i += 7;
		} else [i, defaultValue] = this.readIdentifierVal(xmlData, i, "ATTLIST");
		return {
			elementName,
			attributeName,
			attributeType,
			defaultValue,
			index: i
		};
	}
};
var skipWhitespace = (data, index) => {
	while (index < data.length && /\s/.test(data[index])) index++;
	return index;
};
function hasSeq(data, seq, i) {
	for (let j = 0; j < seq.length; j++) if (seq[j] !== data[i + j + 1]) return false;
	return true;
}
function validateEntityName(name, xmlVersion) {
	if (qName(name, { xmlVersion })) return name;
	else throw new Error(`Invalid entity name ${name}`);
}
// ../../work/wt-reader/node_modules/anynum/digitTable.js
/**
* Flat lookup table: maps Unicode code point → ASCII digit (0-9).
* Only decimal digit characters (Unicode category Nd) are included.
*
* Strategy: Int32Array of size (maxCodePoint - minCodePoint + 1).
* Value 0xFF means "not a digit". Value 0-9 is the ASCII digit value.
* This gives O(1) lookup with no branching, no bisect, no loop.
*
* Memory: range is 0x0660 to 0x1FBF0 → ~129,936 entries × 1 byte = ~127 KB.
* Acceptable for a one-time init; lookup is a single array index.
*/
var SCRIPT_ZEROS = [
	48,
	1632,
	1776,
	2406,
	2534,
	2662,
	2790,
	2918,
	3046,
	3174,
	3302,
	3430,
	3558,
	3664,
	3792,
	3872,
	4160,
	4240,
	6112,
	6160,
	6470,
	6608,
	6784,
	6800,
	6992,
	7088,
	7232,
	7248,
	65296,
	120782,
	120792,
	120802,
	120812,
	120822,
	66720,
	68912,
	69734,
	69872,
	69942,
	70096,
	70384,
	70736,
	70864,
	71248,
	71360,
	71472,
	71904,
	72016,
	72688,
	72784,
	73040,
	73120,
	73552,
	92768,
	92864,
	93008,
	123200,
	123632,
	124144,
	125264,
	130032
];
var HIGH_MAP = /* @__PURE__ */ new Map();
var LOW_MAX = 65535;
var TABLE_OFFSET = 1632;
var TABLE = (/* @__PURE__ */ new Uint8Array(63904)).fill(255);
for (const zero of SCRIPT_ZEROS) for (let d = 0; d < 10; d++) {
	const cp = zero + d;
	if (cp <= LOW_MAX) TABLE[cp - TABLE_OFFSET] = d;
	else HIGH_MAP.set(cp, d);
}
// ../../work/wt-reader/node_modules/anynum/anynum.js
var CHAR_0 = 48;
var CHAR_9 = 57;
var CHAR_MINUS = 45;
var MINUS_SET = /* @__PURE__ */ new Set([
	8722,
	65293,
	65123
]);
/**
* Normalize all Unicode decimal digit characters in a string to ASCII (0-9),
* and normalize Unicode minus variants to ASCII '-' (U+002D).
*
* Non-digit, non-minus characters are passed through unchanged.
*
* Performance design:
* - Fast path: if the string has no convertible characters, return it unchanged
*   (zero allocation).
* - BMP digits (0x0660..0xFFFF excl. surrogates): flat Uint8Array lookup (O(1)).
* - Supplementary plane digits (> 0xFFFF, encoded as surrogate pairs): Map lookup.
* - Minus variants: checked inline with a small fixed Set.
*
* @param {string} str
* @returns {string}
*/
function anynum(str) {
	if (typeof str !== "string") return str;
	const len = str.length;
	if (len === 0) return str;
	let firstHit = -1;
	for (let i = 0; i < len; i++) {
		const cc = str.charCodeAt(i);
		if (cc >= CHAR_0 && cc <= CHAR_9 || cc === CHAR_MINUS) continue;
		if (cc < 1632) {
			if (MINUS_SET.has(cc)) {
				firstHit = i;
				break;
			}
			continue;
		}
		if (cc >= 55296 && cc <= 56319) {
			if (i + 1 < len) {
				const low = str.charCodeAt(i + 1);
				if (low >= 56320 && low <= 57343) {
					const cp = 65536 + (cc - 55296 << 10) + (low - 56320);
					if (HIGH_MAP.has(cp)) {
						firstHit = i;
						break;
					}
				}
			}
			continue;
		}
		if (TABLE[cc - 1632] !== 255 || MINUS_SET.has(cc)) {
			firstHit = i;
			break;
		}
	}
	if (firstHit === -1) return str;
	const chars = [];
	if (firstHit > 0) chars.push(str.slice(0, firstHit));
	for (let i = firstHit; i < len; i++) {
		const cc = str.charCodeAt(i);
		if (cc >= CHAR_0 && cc <= CHAR_9 || cc === CHAR_MINUS) {
			chars.push(str[i]);
			continue;
		}
		if (cc < 1632) {
			chars.push(MINUS_SET.has(cc) ? "-" : str[i]);
			continue;
		}
		if (cc >= 55296 && cc <= 56319) {
			if (i + 1 < len) {
				const low = str.charCodeAt(i + 1);
				if (low >= 56320 && low <= 57343) {
					const cp = 65536 + (cc - 55296 << 10) + (low - 56320);
					const d = HIGH_MAP.get(cp);
					if (d !== void 0) {
						chars.push(String.fromCharCode(d + 48));
						i++;
						continue;
					}
				}
			}
			chars.push(str[i]);
			continue;
		}
		if (MINUS_SET.has(cc)) {
			chars.push("-");
			continue;
		}
		const d = TABLE[cc - TABLE_OFFSET];
		chars.push(d !== 255 ? String.fromCharCode(d + 48) : str[i]);
	}
	return chars.join("");
}
// ../../work/wt-reader/node_modules/strnum/strnum.js
var hexRegex = /^[-+]?0x[a-fA-F0-9]+$/;
var binRegex = /^0b[01]+$/;
var octRegex = /^0o[0-7]+$/;
var numRegex = /^([\-\+])?(0*)([0-9]*(\.[0-9]*)?)$/;
var consider = {
	hex: true,
	binary: false,
	octal: false,
	leadingZeros: true,
	decimalPoint: ".",
	eNotation: true,
	infinity: "original",
	unicode: false
};
function toNumber(str, options = {}) {
	options = Object.assign({}, consider, options);
	if (!str || typeof str !== "string") return str;
	let trimmedStr = str.trim();
	if (trimmedStr.length === 0) return str;
	else if (options.skipLike !== void 0 && options.skipLike.test(trimmedStr)) return str;
	else if (trimmedStr === "0") return 0;
	if (options.unicode) {
		trimmedStr = anynum(trimmedStr);
		if (trimmedStr === "0") return 0;
	}
	if (options.hex && hexRegex.test(trimmedStr)) return parse_int(trimmedStr, 16);
	else if (options.binary && binRegex.test(trimmedStr)) return parse_int(trimmedStr, 2);
	else if (options.octal && octRegex.test(trimmedStr)) return parse_int(trimmedStr, 8);
	else if (!isFinite(trimmedStr)) {
		const num = Number(trimmedStr);
		if (Number.isNaN(num)) return str;
		return handleInfinity(str, num, options);
	} else if (trimmedStr.includes("e") || trimmedStr.includes("E")) return resolveEnotation(str, trimmedStr, options);
	else {
		const match = numRegex.exec(trimmedStr);
		if (match) {
			const sign = match[1] || "";
			const leadingZeros = match[2];
			let numTrimmedByZeros = trimZeros(match[3]);
			const decimalAdjacentToLeadingZeros = sign ? trimmedStr[leadingZeros.length + 1] === "." : trimmedStr[leadingZeros.length] === ".";
			if (!options.leadingZeros && (leadingZeros.length > 1 || leadingZeros.length === 1 && !decimalAdjacentToLeadingZeros)) return str;
			else {
				const num = Number(trimmedStr);
				const parsedStr = String(num);
				if (num === 0) return num;
				if (parsedStr.search(/[eE]/) !== -1) {
					if (options.eNotation) return num;
					else return str;
				} else if (trimmedStr.indexOf(".") !== -1) {
					if (parsedStr === "0") return num;
					else if (parsedStr === numTrimmedByZeros) return num;
					else if (parsedStr === `${sign}${numTrimmedByZeros}`) return num;
					else return str;
				}
				let n = leadingZeros ? numTrimmedByZeros : trimmedStr;
				if (leadingZeros) return n === parsedStr || sign + n === parsedStr ? num : str;
				else return n === parsedStr || n === sign + parsedStr ? num : str;
			}
		} else return str;
	}
}
var eNotationRegx = /^([-+])?(0*)(\d*(\.\d*)?[eE][-\+]?\d+)$/;
function resolveEnotation(str, trimmedStr, options) {
	if (!options.eNotation) return str;
	const notation = trimmedStr.match(eNotationRegx);
	if (notation) {
		let sign = notation[1] || "";
		const eChar = notation[3].indexOf("e") === -1 ? "E" : "e";
		const leadingZeros = notation[2];
		const eAdjacentToLeadingZeros = sign ? trimmedStr[leadingZeros.length + 1] === eChar : trimmedStr[leadingZeros.length] === eChar;
		if (leadingZeros.length > 1 && eAdjacentToLeadingZeros) return str;
		else if (leadingZeros.length === 1 && (notation[3].startsWith(`.${eChar}`) || notation[3][0] === eChar)) return Number(trimmedStr);
		else if (leadingZeros.length > 0) {
			if (options.leadingZeros && !eAdjacentToLeadingZeros) return Number(trimmedStr);
			else return str;
		} else return Number(trimmedStr);
	} else return str;
}
/**
* 
* @param {string} numStr without leading zeros
* @returns 
*/
function trimZeros(numStr) {
	if (numStr && numStr.indexOf(".") !== -1) {
		let end = numStr.length;
		while (end > 0 && numStr.charCodeAt(end - 1) === 48) end--;
		numStr = numStr.slice(0, end);
		if (numStr === ".") numStr = "0";
		else if (numStr[0] === ".") numStr = "0" + numStr;
		else if (numStr[numStr.length - 1] === ".") numStr = numStr.substring(0, numStr.length - 1);
		return numStr;
	}
	return numStr;
}
function parse_int(numStr, base) {
	const str = numStr.trim();
	if (base === 2 || base === 8) numStr = str.substring(2);
	if (parseInt) return parseInt(numStr, base);
	else if (Number.parseInt) return Number.parseInt(numStr, base);
	else if (window && window.parseInt) return window.parseInt(numStr, base);
	else throw new Error("parseInt, Number.parseInt, window.parseInt are not supported");
}
/**
* Handle infinite values based on user option
* @param {string} str - original input string
* @param {number} num - parsed number (Infinity or -Infinity)
* @param {object} options - user options
* @returns {string|number|null} based on infinity option
*/
function handleInfinity(str, num, options) {
	const isPositive = num === Infinity;
	switch (options.infinity.toLowerCase()) {
		case "null": return null;
		case "infinity": return num;
		case "string": return isPositive ? "Infinity" : "-Infinity";
		default: return str;
	}
}
// ../../work/wt-reader/node_modules/fast-xml-parser/src/ignoreAttributes.js
function getIgnoreAttributesFn(ignoreAttributes) {
	if (typeof ignoreAttributes === "function") return ignoreAttributes;
	if (Array.isArray(ignoreAttributes)) return (attrName) => {
		for (const pattern of ignoreAttributes) {
			if (typeof pattern === "string" && attrName === pattern) return true;
			if (pattern instanceof RegExp && pattern.test(attrName)) return true;
		}
	};
	return () => false;
}
// ../../work/wt-reader/node_modules/path-expression-matcher/src/Expression.js
/**
* Expression - Parses and stores a tag pattern expression
* 
* Patterns are parsed once and stored in an optimized structure for fast matching.
* 
* @example
* const expr = new Expression("root.users.user");
* const expr2 = new Expression("..user[id]:first");
* const expr3 = new Expression("root/users/user", { separator: '/' });
*/
var Expression = class {
	/**
	* Create a new Expression
	* @param {string} pattern - Pattern string (e.g., "root.users.user", "..user[id]")
	* @param {Object} options - Configuration options
	* @param {string} options.separator - Path separator (default: '.')
	*/
	constructor(pattern, options = {}, data) {
		this.pattern = pattern;
		this.separator = options.separator || ".";
		this.segments = this._parse(pattern);
		this.data = data;
		this._hasDeepWildcard = this.segments.some((seg) => seg.type === "deep-wildcard");
		this._hasAttributeCondition = this.segments.some((seg) => seg.attrName !== void 0);
		this._hasPositionSelector = this.segments.some((seg) => seg.position !== void 0);
	}
	/**
	* Parse pattern string into segments
	* @private
	* @param {string} pattern - Pattern to parse
	* @returns {Array} Array of segment objects
	*/
	_parse(pattern) {
		const segments = [];
		let i = 0;
		let currentPart = "";
		while (i < pattern.length) if (pattern[i] === this.separator) {
			if (i + 1 < pattern.length && pattern[i + 1] === this.separator) {
				if (currentPart.trim()) {
					segments.push(this._parseSegment(currentPart.trim()));
					currentPart = "";
				}
				segments.push({ type: "deep-wildcard" });
				i += 2;
			} else {
				if (currentPart.trim()) segments.push(this._parseSegment(currentPart.trim()));
				currentPart = "";
				i++;
			}
		} else {
			currentPart += pattern[i];
			i++;
		}
		if (currentPart.trim()) segments.push(this._parseSegment(currentPart.trim()));
		return segments;
	}
	/**
	* Parse a single segment
	* @private
	* @param {string} part - Segment string (e.g., "user", "ns::user", "user[id]", "ns::user:first")
	* @returns {Object} Segment object
	*/
	_parseSegment(part) {
		const segment = { type: "tag" };
		let bracketContent = null;
		let withoutBrackets = part;
		const bracketMatch = part.match(/^([^\[]+)(\[[^\]]*\])(.*)$/);
		if (bracketMatch) {
			withoutBrackets = bracketMatch[1] + bracketMatch[3];
			if (bracketMatch[2]) {
				const content = bracketMatch[2].slice(1, -1);
				if (content) bracketContent = content;
			}
		}
		let namespace = void 0;
		let tagAndPosition = withoutBrackets;
		if (withoutBrackets.includes("::")) {
			const nsIndex = withoutBrackets.indexOf("::");
			namespace = withoutBrackets.substring(0, nsIndex).trim();
			tagAndPosition = withoutBrackets.substring(nsIndex + 2).trim();
			if (!namespace) throw new Error(`Invalid namespace in pattern: ${part}`);
		}
		let tag = void 0;
		let positionMatch = null;
		if (tagAndPosition.includes(":")) {
			const colonIndex = tagAndPosition.lastIndexOf(":");
			const tagPart = tagAndPosition.substring(0, colonIndex).trim();
			const posPart = tagAndPosition.substring(colonIndex + 1).trim();
			if ([
				"first",
				"last",
				"odd",
				"even"
			].includes(posPart) || /^nth\(\d+\)$/.test(posPart)) {
				tag = tagPart;
				positionMatch = posPart;
			} else tag = tagAndPosition;
		} else tag = tagAndPosition;
		if (!tag) throw new Error(`Invalid segment pattern: ${part}`);
		segment.tag = tag;
		if (namespace) segment.namespace = namespace;
		if (bracketContent) {
			if (bracketContent.includes("=")) {
				const eqIndex = bracketContent.indexOf("=");
				segment.attrName = bracketContent.substring(0, eqIndex).trim();
				segment.attrValue = bracketContent.substring(eqIndex + 1).trim();
			} else segment.attrName = bracketContent.trim();
		}
		if (positionMatch) {
			const nthMatch = positionMatch.match(/^nth\((\d+)\)$/);
			if (nthMatch) {
				segment.position = "nth";
				segment.positionValue = parseInt(nthMatch[1], 10);
			} else segment.position = positionMatch;
		}
		return segment;
	}
	/**
	* Get the number of segments
	* @returns {number}
	*/
	get length() {
		return this.segments.length;
	}
	/**
	* Check if expression contains deep wildcard
	* @returns {boolean}
	*/
	hasDeepWildcard() {
		return this._hasDeepWildcard;
	}
	/**
	* Check if expression has attribute conditions
	* @returns {boolean}
	*/
	hasAttributeCondition() {
		return this._hasAttributeCondition;
	}
	/**
	* Check if expression has position selectors
	* @returns {boolean}
	*/
	hasPositionSelector() {
		return this._hasPositionSelector;
	}
	/**
	* Get string representation
	* @returns {string}
	*/
	toString() {
		return this.pattern;
	}
};
// ../../work/wt-reader/node_modules/path-expression-matcher/src/ExpressionSet.js
/**
* ExpressionSet - An indexed collection of Expressions for efficient bulk matching
*
* Instead of iterating all expressions on every tag, ExpressionSet pre-indexes
* them at insertion time by depth and terminal tag name. At match time, only
* the relevant bucket is evaluated — typically reducing checks from O(E) to O(1)
* lookup plus O(small bucket) matches.
*
* Three buckets are maintained:
*  - `_byDepthAndTag`  — exact depth + exact tag name  (tightest, used first)
*  - `_wildcardByDepth` — exact depth + wildcard tag `*` (depth-matched only)
*  - `_deepWildcards`  — expressions containing `..`  (cannot be depth-indexed)
*
* @example
* import { Expression, ExpressionSet } from 'fast-xml-tagger';
*
* // Build once at config time
* const stopNodes = new ExpressionSet();
* stopNodes.add(new Expression('root.users.user'));
* stopNodes.add(new Expression('root.config.setting'));
* stopNodes.add(new Expression('..script'));
*
* // Query on every tag — hot path
* if (stopNodes.matchesAny(matcher)) { ... }
*/
var ExpressionSet = class {
	constructor() {
		/** @type {Map<string, import('./Expression.js').default[]>} depth:tag → expressions */
		this._byDepthAndTag = /* @__PURE__ */ new Map();
		/** @type {Map<number, import('./Expression.js').default[]>} depth → wildcard-tag expressions */
		this._wildcardByDepth = /* @__PURE__ */ new Map();
		/** @type {import('./Expression.js').default[]} expressions containing deep wildcard (..) */
		this._deepWildcards = [];
		/** @type {Map<string, import('./Expression.js').default[]>} terminalTag → deep wildcard expressions */
		this._deepByTerminalTag = /* @__PURE__ */ new Map();
		/** @type {Set<string>} pattern strings already added — used for deduplication */
		this._patterns = /* @__PURE__ */ new Set();
		/** @type {boolean} whether the set is sealed against further additions */
		this._sealed = false;
	}
	/**
	* Add an Expression to the set.
	* Duplicate patterns (same pattern string) are silently ignored.
	*
	* @param {import('./Expression.js').default} expression - A pre-constructed Expression instance
	* @returns {this} for chaining
	* @throws {TypeError} if called after seal()
	*
	* @example
	* set.add(new Expression('root.users.user'));
	* set.add(new Expression('..script'));
	*/
	add(expression) {
		if (this._sealed) throw new TypeError("ExpressionSet is sealed. Create a new ExpressionSet to add more expressions.");
		if (this._patterns.has(expression.pattern)) return this;
		this._patterns.add(expression.pattern);
		if (expression.hasDeepWildcard()) {
			const lastSeg = expression.segments[expression.segments.length - 1];
			if (lastSeg && lastSeg.type !== "deep-wildcard" && lastSeg.tag !== "*") {
				const tag = lastSeg.tag;
				if (!this._deepByTerminalTag.has(tag)) this._deepByTerminalTag.set(tag, []);
				this._deepByTerminalTag.get(tag).push(expression);
			} else this._deepWildcards.push(expression);
			return this;
		}
		const depth = expression.length;
		const tag = expression.segments[expression.segments.length - 1]?.tag;
		if (!tag || tag === "*") {
			if (!this._wildcardByDepth.has(depth)) this._wildcardByDepth.set(depth, []);
			this._wildcardByDepth.get(depth).push(expression);
		} else {
			const key = `${depth}:${tag}`;
			if (!this._byDepthAndTag.has(key)) this._byDepthAndTag.set(key, []);
			this._byDepthAndTag.get(key).push(expression);
		}
		return this;
	}
	/**
	* Add multiple expressions at once.
	*
	* @param {import('./Expression.js').default[]} expressions - Array of Expression instances
	* @returns {this} for chaining
	*
	* @example
	* set.addAll([
	*   new Expression('root.users.user'),
	*   new Expression('root.config.setting'),
	* ]);
	*/
	addAll(expressions) {
		for (const expr of expressions) this.add(expr);
		return this;
	}
	/**
	* Check whether a pattern string is already present in the set.
	*
	* @param {import('./Expression.js').default} expression
	* @returns {boolean}
	*/
	has(expression) {
		return this._patterns.has(expression.pattern);
	}
	/**
	* Number of expressions in the set.
	* @type {number}
	*/
	get size() {
		return this._patterns.size;
	}
	/**
	* Seal the set against further modifications.
	* Useful to prevent accidental mutations after config is built.
	* Calling add() or addAll() on a sealed set throws a TypeError.
	*
	* @returns {this}
	*/
	seal() {
		this._sealed = true;
		return this;
	}
	/**
	* Whether the set has been sealed.
	* @type {boolean}
	*/
	get isSealed() {
		return this._sealed;
	}
	/**
	* Test whether the matcher's current path matches any expression in the set.
	*
	* Evaluation order (cheapest → most expensive):
	*  1. Exact depth + tag bucket  — O(1) lookup, typically 0–2 expressions
	*  2. Depth-only wildcard bucket — O(1) lookup, rare
	*  3. Deep-wildcard list         — always checked, but usually small
	*
	* @param {import('./Matcher.js').default} matcher - Matcher instance (or readOnly view)
	* @returns {boolean} true if any expression matches the current path
	*
	* @example
	* if (stopNodes.matchesAny(matcher)) {
	*   // handle stop node
	* }
	*/
	matchesAny(matcher) {
		return this.findMatch(matcher) !== null;
	}
	/**
	* Find and return the first Expression that matches the matcher's current path.
	*
	* Uses the same evaluation order as matchesAny (cheapest → most expensive):
	*  1. Exact depth + tag bucket
	*  2. Depth-only wildcard bucket
	*  3. Deep-wildcard list
	*
	* @param {import('./Matcher.js').default} matcher - Matcher instance (or readOnly view)
	* @returns {import('./Expression.js').default | null} the first matching Expression, or null
	*
	* @example
	* const expr = stopNodes.findMatch(matcher);
	* if (expr) {
	*   // access expr.config, expr.pattern, etc.
	* }
	*/
	findMatch(matcher) {
		const depth = matcher.getDepth();
		const tag = matcher.getCurrentTag();
		const exactKey = `${depth}:${tag}`;
		const exactBucket = this._byDepthAndTag.get(exactKey);
		if (exactBucket) {
			for (let i = 0; i < exactBucket.length; i++) if (matcher.matches(exactBucket[i])) return exactBucket[i];
		}
		const wildcardBucket = this._wildcardByDepth.get(depth);
		if (wildcardBucket) {
			for (let i = 0; i < wildcardBucket.length; i++) if (matcher.matches(wildcardBucket[i])) return wildcardBucket[i];
		}
		const deepBucket = this._deepByTerminalTag.get(tag);
		if (deepBucket) {
			for (let i = 0; i < deepBucket.length; i++) if (matcher.matches(deepBucket[i])) return deepBucket[i];
		}
		for (let i = 0; i < this._deepWildcards.length; i++) if (matcher.matches(this._deepWildcards[i])) return this._deepWildcards[i];
		return null;
	}
};
// ../../work/wt-reader/node_modules/path-expression-matcher/src/Matcher.js
/**
* MatcherView - A lightweight read-only view over a Matcher's internal state.
*
* Created once by Matcher and reused across all callbacks. Holds a direct
* reference to the parent Matcher so it always reflects current parser state
* with zero copying or freezing overhead.
*
* Users receive this via {@link Matcher#readOnly} or directly from parser
* callbacks. It exposes all query and matching methods but has no mutation
* methods — misuse is caught at the TypeScript level rather than at runtime.
*
* @example
* const matcher = new Matcher();
* const view = matcher.readOnly();
*
* matcher.push("root", {});
* view.getCurrentTag(); // "root"
* view.getDepth();      // 1
*/
var MatcherView = class {
	/**
	* @param {Matcher} matcher - The parent Matcher instance to read from.
	*/
	constructor(matcher) {
		this._matcher = matcher;
	}
	/**
	* Get the path separator used by the parent matcher.
	* @returns {string}
	*/
	get separator() {
		return this._matcher.separator;
	}
	/**
	* Get current tag name.
	* @returns {string|undefined}
	*/
	getCurrentTag() {
		const path = this._matcher.path;
		return path.length > 0 ? path[path.length - 1].tag : void 0;
	}
	/**
	* Get current namespace.
	* @returns {string|undefined}
	*/
	getCurrentNamespace() {
		const path = this._matcher.path;
		return path.length > 0 ? path[path.length - 1].namespace : void 0;
	}
	/**
	* Get current node's attribute value.
	* @param {string} attrName
	* @returns {*}
	*/
	getAttrValue(attrName) {
		const path = this._matcher.path;
		if (path.length === 0) return void 0;
		return path[path.length - 1].values?.[attrName];
	}
	/**
	* Check if current node has an attribute.
	* @param {string} attrName
	* @returns {boolean}
	*/
	hasAttr(attrName) {
		const path = this._matcher.path;
		if (path.length === 0) return false;
		const current = path[path.length - 1];
		return current.values !== void 0 && attrName in current.values;
	}
	/**
	* Get the value of a "kept" attribute from the nearest ancestor (or
	* current node) that declared it via `push(tag, attrs, ns, { keep: [...] })`.
	* @param {string} attrName
	* @returns {*}
	*/
	getAnyParentAttr(attrName) {
		return this._matcher.getAnyParentAttr(attrName);
	}
	/**
	* Check whether any ancestor (or the current node) kept the given
	* attribute via `push(tag, attrs, ns, { keep: [...] })`.
	* @param {string} attrName
	* @returns {boolean}
	*/
	hasAnyParentAttr(attrName) {
		return this._matcher.hasAnyParentAttr(attrName);
	}
	/**
	* Get current node's sibling position (child index in parent).
	* @returns {number}
	*/
	getPosition() {
		const path = this._matcher.path;
		if (path.length === 0) return -1;
		return path[path.length - 1].position ?? 0;
	}
	/**
	* Get current node's repeat counter (occurrence count of this tag name).
	* @returns {number}
	*/
	getCounter() {
		const path = this._matcher.path;
		if (path.length === 0) return -1;
		return path[path.length - 1].counter ?? 0;
	}
	/**
	* Get current node's sibling index (alias for getPosition).
	* @returns {number}
	* @deprecated Use getPosition() or getCounter() instead
	*/
	getIndex() {
		return this.getPosition();
	}
	/**
	* Get current path depth.
	* @returns {number}
	*/
	getDepth() {
		return this._matcher.path.length;
	}
	/**
	* Get path as string.
	* @param {string} [separator] - Optional separator (uses default if not provided)
	* @param {boolean} [includeNamespace=true]
	* @returns {string}
	*/
	toString(separator, includeNamespace = true) {
		return this._matcher.toString(separator, includeNamespace);
	}
	/**
	* Get path as array of tag names.
	* @returns {string[]}
	*/
	toArray() {
		return this._matcher.path.map((n) => n.tag);
	}
	/**
	* Match current path against an Expression.
	* @param {Expression} expression
	* @returns {boolean}
	*/
	matches(expression) {
		return this._matcher.matches(expression);
	}
	/**
	* Match any expression in the given set against the current path.
	* @param {ExpressionSet} exprSet
	* @returns {boolean}
	*/
	matchesAny(exprSet) {
		return exprSet.matchesAny(this._matcher);
	}
};
/**
* Matcher - Tracks current path in XML/JSON tree and matches against Expressions.
*
* The matcher maintains a stack of nodes representing the current path from root to
* current tag. It only stores attribute values for the current (top) node to minimize
* memory usage. Sibling tracking is used to auto-calculate position and counter.
*
* Use {@link Matcher#readOnly} to obtain a {@link MatcherView} safe to pass to
* user callbacks — it always reflects current state with no Proxy overhead.
*
* @example
* const matcher = new Matcher();
* matcher.push("root", {});
* matcher.push("users", {});
* matcher.push("user", { id: "123", type: "admin" });
*
* const expr = new Expression("root.users.user");
* matcher.matches(expr); // true
*/
var Matcher = class {
	/**
	* Create a new Matcher.
	* @param {Object} [options={}]
	* @param {string} [options.separator='.'] - Default path separator
	*/
	constructor(options = {}) {
		this.separator = options.separator || ".";
		this.path = [];
		this.siblingStacks = [];
		this._pathStringCache = null;
		this._view = new MatcherView(this);
		this._keptAttrs = [];
	}
	/**
	* Push a new tag onto the path.
	* @param {string} tagName
	* @param {Object|null} [attrValues=null]
	* @param {string|null} [namespace=null]
	* @param {Object|null} [options=null]
	* @param {string[]} [options.keep] - Names of attributes (from attrValues)
	*/
	push(tagName, attrValues = null, namespace = null, options = null) {
		this._pathStringCache = null;
		if (this.path.length > 0) this.path[this.path.length - 1].values = void 0;
		const currentLevel = this.path.length;
		let level = this.siblingStacks[currentLevel];
		if (!level) {
			level = {
				counts: /* @__PURE__ */ new Map(),
				total: 0
			};
			this.siblingStacks[currentLevel] = level;
		}
		const siblingKey = namespace ? `${namespace}:${tagName}` : tagName;
		const counter = level.counts.get(siblingKey) || 0;
		const position = level.total;
		level.counts.set(siblingKey, counter + 1);
		level.total++;
		const node = {
			tag: tagName,
			position,
			counter
		};
		if (namespace !== null && namespace !== void 0) node.namespace = namespace;
		if (attrValues !== null && attrValues !== void 0) node.values = attrValues;
		this.path.push(node);
		const depth = this.path.length;
		const keep = options !== null ? options.keep : null;
		if (keep !== null && keep !== void 0 && keep.length > 0 && attrValues) for (let i = 0; i < keep.length; i++) {
			const name = keep[i];
			if (attrValues[name] !== void 0) this._keptAttrs.push({
				depth,
				name,
				value: attrValues[name]
			});
		}
	}
	/**
	* Pop the last tag from the path.
	* @returns {Object|undefined} The popped node
	*/
	pop() {
		if (this.path.length === 0) return void 0;
		this._pathStringCache = null;
		const node = this.path.pop();
		if (this.siblingStacks.length > this.path.length + 1) this.siblingStacks.length = this.path.length + 1;
		const poppedDepth = this.path.length + 1;
		while (this._keptAttrs.length > 0 && this._keptAttrs[this._keptAttrs.length - 1].depth >= poppedDepth) this._keptAttrs.pop();
		return node;
	}
	/**
	* Update current node's attribute values.
	* Useful when attributes are parsed after push.
	* @param {Object} attrValues
	*/
	updateCurrent(attrValues) {
		if (this.path.length > 0) {
			const current = this.path[this.path.length - 1];
			if (attrValues !== null && attrValues !== void 0) current.values = attrValues;
		}
	}
	/**
	* Get current tag name.
	* @returns {string|undefined}
	*/
	getCurrentTag() {
		return this.path.length > 0 ? this.path[this.path.length - 1].tag : void 0;
	}
	/**
	* Get current namespace.
	* @returns {string|undefined}
	*/
	getCurrentNamespace() {
		return this.path.length > 0 ? this.path[this.path.length - 1].namespace : void 0;
	}
	/**
	* Get current node's attribute value.
	* @param {string} attrName
	* @returns {*}
	*/
	getAttrValue(attrName) {
		if (this.path.length === 0) return void 0;
		return this.path[this.path.length - 1].values?.[attrName];
	}
	/**
	* Check if current node has an attribute.
	* @param {string} attrName
	* @returns {boolean}
	*/
	hasAttr(attrName) {
		if (this.path.length === 0) return false;
		const current = this.path[this.path.length - 1];
		return current.values !== void 0 && attrName in current.values;
	}
	/**
	* Get the value of a "kept" attribute from the nearest ancestor (or
	* current node) that declared it via `push(tag, attrs, ns, { keep: [...] })`.
	* Unlike getAttrValue(), this works regardless of how deep the path has
	* gone since the attribute was pushed — but only for attribute names that
	* were explicitly marked with `keep` at push time. Cost is proportional to
	* the number of currently-kept attributes (typically 0-3), not path depth.
	* @param {string} attrName
	* @returns {*} the value, or undefined if no ancestor kept this attribute
	*/
	getAnyParentAttr(attrName) {
		const kept = this._keptAttrs;
		for (let i = kept.length - 1; i >= 0; i--) if (kept[i].name === attrName) return kept[i].value;
	}
	/**
	* Check whether any ancestor (or the current node) kept the given
	* attribute via `push(tag, attrs, ns, { keep: [...] })`.
	* @param {string} attrName
	* @returns {boolean}
	*/
	hasAnyParentAttr(attrName) {
		const kept = this._keptAttrs;
		for (let i = kept.length - 1; i >= 0; i--) if (kept[i].name === attrName) return true;
		return false;
	}
	/**
	* Get current node's sibling position (child index in parent).
	* @returns {number}
	*/
	getPosition() {
		if (this.path.length === 0) return -1;
		return this.path[this.path.length - 1].position ?? 0;
	}
	/**
	* Get current node's repeat counter (occurrence count of this tag name).
	* @returns {number}
	*/
	getCounter() {
		if (this.path.length === 0) return -1;
		return this.path[this.path.length - 1].counter ?? 0;
	}
	/**
	* Get current node's sibling index (alias for getPosition).
	* @returns {number}
	* @deprecated Use getPosition() or getCounter() instead
	*/
	getIndex() {
		return this.getPosition();
	}
	/**
	* Get current path depth.
	* @returns {number}
	*/
	getDepth() {
		return this.path.length;
	}
	/**
	* Get path as string.
	* @param {string} [separator] - Optional separator (uses default if not provided)
	* @param {boolean} [includeNamespace=true]
	* @returns {string}
	*/
	toString(separator, includeNamespace = true) {
		const sep = separator || this.separator;
		if (sep === this.separator && includeNamespace === true) {
			if (this._pathStringCache !== null) return this._pathStringCache;
			const result = this.path.map((n) => n.namespace ? `${n.namespace}:${n.tag}` : n.tag).join(sep);
			this._pathStringCache = result;
			return result;
		}
		return this.path.map((n) => includeNamespace && n.namespace ? `${n.namespace}:${n.tag}` : n.tag).join(sep);
	}
	/**
	* Get path as array of tag names.
	* @returns {string[]}
	*/
	toArray() {
		return this.path.map((n) => n.tag);
	}
	/**
	* Reset the path to empty.
	*/
	reset() {
		this._pathStringCache = null;
		this.path = [];
		this.siblingStacks = [];
		this._keptAttrs = [];
	}
	/**
	* Match current path against an Expression.
	* @param {Expression} expression
	* @returns {boolean}
	*/
	matches(expression) {
		const segments = expression.segments;
		if (segments.length === 0) return false;
		if (expression.hasDeepWildcard()) return this._matchWithDeepWildcard(segments);
		return this._matchSimple(segments);
	}
	/**
	* @private
	*/
	_matchSimple(segments) {
		if (this.path.length !== segments.length) return false;
		for (let i = 0; i < segments.length; i++) if (!this._matchSegment(segments[i], this.path[i], i === this.path.length - 1)) return false;
		return true;
	}
	/**
	* @private
	*/
	_matchWithDeepWildcard(segments) {
		let pathIdx = this.path.length - 1;
		let segIdx = segments.length - 1;
		while (segIdx >= 0 && pathIdx >= 0) {
			const segment = segments[segIdx];
			if (segment.type === "deep-wildcard") {
				segIdx--;
				if (segIdx < 0) return true;
				const nextSeg = segments[segIdx];
				let found = false;
				for (let i = pathIdx; i >= 0; i--) if (this._matchSegment(nextSeg, this.path[i], i === this.path.length - 1)) {
					pathIdx = i - 1;
					segIdx--;
					found = true;
					break;
				}
				if (!found) return false;
			} else {
				if (!this._matchSegment(segment, this.path[pathIdx], pathIdx === this.path.length - 1)) return false;
				pathIdx--;
				segIdx--;
			}
		}
		return segIdx < 0;
	}
	/**
	* @private
	*/
	_matchSegment(segment, node, isCurrentNode) {
		if (segment.tag !== "*" && segment.tag !== node.tag) return false;
		if (segment.namespace !== void 0) {
			if (segment.namespace !== "*" && segment.namespace !== node.namespace) return false;
		}
		if (segment.attrName !== void 0) {
			if (!isCurrentNode) return false;
			if (!node.values || !(segment.attrName in node.values)) return false;
			if (segment.attrValue !== void 0) {
				if (String(node.values[segment.attrName]) !== String(segment.attrValue)) return false;
			}
		}
		if (segment.position !== void 0) {
			if (!isCurrentNode) return false;
			const counter = node.counter ?? 0;
			if (segment.position === "first" && counter !== 0) return false;
			else if (segment.position === "odd" && counter % 2 !== 1) return false;
			else if (segment.position === "even" && counter % 2 !== 0) return false;
			else if (segment.position === "nth" && counter !== segment.positionValue) return false;
		}
		return true;
	}
	/**
	* Match any expression in the given set against the current path.
	* @param {ExpressionSet} exprSet
	* @returns {boolean}
	*/
	matchesAny(exprSet) {
		return exprSet.matchesAny(this);
	}
	/**
	* Create a snapshot of current state.
	* @returns {Object}
	*/
	snapshot() {
		return {
			path: this.path.map((node) => ({ ...node })),
			siblingStacks: this.siblingStacks.map((level) => level ? {
				counts: new Map(level.counts),
				total: level.total
			} : level),
			keptAttrs: this._keptAttrs.map((entry) => ({ ...entry }))
		};
	}
	/**
	* Restore state from snapshot.
	* @param {Object} snapshot
	*/
	restore(snapshot) {
		this._pathStringCache = null;
		this.path = snapshot.path.map((node) => ({ ...node }));
		this.siblingStacks = snapshot.siblingStacks.map((level) => level ? {
			counts: new Map(level.counts),
			total: level.total
		} : level);
		this._keptAttrs = (snapshot.keptAttrs || []).map((entry) => ({ ...entry }));
	}
	/**
	* Return the read-only {@link MatcherView} for this matcher.
	*
	* The same instance is returned on every call — no allocation occurs.
	* It always reflects the current parser state and is safe to pass to
	* user callbacks without risk of accidental mutation.
	*
	* @returns {MatcherView}
	*
	* @example
	* const view = matcher.readOnly();
	* // pass view to callbacks — it stays in sync automatically
	* view.matches(expr);       // ✓
	* view.getCurrentTag();     // ✓
	* // view.push(...)         // ✗ method does not exist — caught by TypeScript
	*/
	readOnly() {
		return this._view;
	}
};
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/html.js
/**
* HTML context patterns.
*
* Detects XSS vectors that are dangerous when a string ends up rendered as HTML.
* All patterns use bounded quantifiers to ensure linear-time matching (ReDoS-safe).
*
* Each entry is { pattern: RegExp, id: string, description: string }
* so callers can inspect which rule fired if they need to.
*/
var HTML_PATTERNS = [
	{
		id: "html-script-open",
		description: "<script opening tag",
		pattern: /<script[\s>/]/i
	},
	{
		id: "html-script-close",
		description: "<\/script closing tag",
		pattern: /<\/script[\s>]/i
	},
	{
		id: "html-javascript-protocol",
		description: "javascript: URI scheme (with optional whitespace/encoding)",
		pattern: /j[\t\n\r ]*a[\t\n\r ]*v[\t\n\r ]*a[\t\n\r ]*s[\t\n\r ]*c[\t\n\r ]*r[\t\n\r ]*i[\t\n\r ]*p[\t\n\r ]*t[\t\n\r ]*:/i
	},
	{
		id: "html-vbscript-protocol",
		description: "vbscript: URI scheme",
		pattern: /vbscript[\t\n\r ]*:/i
	},
	{
		id: "html-data-html",
		description: "data:text/html URI — can execute scripts in browsers",
		pattern: /data[\t\n\r ]*:[\t\n\r ]*text\/html/i
	},
	{
		id: "html-data-xhtml",
		description: "data:application/xhtml+xml URI",
		pattern: /data[\t\n\r ]*:[\t\n\r ]*application\/xhtml/i
	},
	{
		id: "html-data-svg",
		description: "data:image/svg+xml URI — can execute scripts",
		pattern: /data[\t\n\r ]*:[\t\n\r ]*image\/svg\+xml/i
	},
	{
		id: "html-inline-event-handler",
		description: "Inline event handler attributes: onclick=, onerror=, onload=, etc.",
		pattern: /\bon\w{1,30}\s*=/i
	},
	{
		id: "html-entity-obfuscated-script",
		description: "HTML-entity-encoded <script (e.g. &#x3C;script or &lt;script)",
		pattern: /(?:&#x0*3[Cc];?|&#0*60;?|&lt;)\s*script/i
	},
	{
		id: "html-entity-obfuscated-javascript",
		description: "HTML-entity-encoded javascript: (partial — catches common &#106; or &#x6a; for \"j\")",
		pattern: /(?:&#x0*6[Aa];?|&#0*106;?)\s*(?:&#x0*61;?|a)[\s\S]{0,80}script\s*:/i
	},
	{
		id: "html-style-expression",
		description: "CSS expression() — IE-era code execution in style attributes",
		pattern: /style[\s\S]{0,20}expression\s*\(/i
	},
	{
		id: "html-object-embed",
		description: "<object or <embed tags that can load active content",
		pattern: /<(?:object|embed)[\s>/]/i
	},
	{
		id: "html-base-tag",
		description: "<base href= — can hijack all relative URLs on a page",
		pattern: /<base[\s>]/i
	},
	{
		id: "html-meta-refresh",
		description: "<meta http-equiv=\"refresh\" — can redirect users",
		pattern: /<meta[\s\S]{0,40}http-equiv[\s\S]{0,20}refresh/i
	},
	{
		id: "html-srcdoc",
		description: "srcdoc= attribute on iframes — embeds HTML that can run scripts",
		pattern: /srcdoc\s*=/i
	},
	{
		id: "html-iframe",
		description: "<iframe tag",
		pattern: /<iframe[\s>/]/i
	},
	{
		id: "html-form",
		description: "<form tag — can be used for phishing / credential harvesting injection",
		pattern: /<form[\s>/]/i
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/xml.js
/**
* XML context patterns.
*
* Detects injection vectors that are specifically dangerous when a string
* is inserted into an XML document (not HTML rendering context).
*
* Key distinction from HTML: these patterns target parser-level attacks —
* things that can confuse or subvert an XML parser, trigger external entity
* resolution, or inject DTD content. HTML rendering concerns (XSS) belong
* in the HTML context.
*/
var XML_PATTERNS = [
	{
		id: "xml-cdata-injection",
		description: "CDATA section injection: <![CDATA[ breaks out of text node context",
		pattern: /<!\[CDATA\[/i
	},
	{
		id: "xml-cdata-close",
		description: "CDATA close sequence: ]]> can terminate an enclosing CDATA section",
		pattern: /\]\]>/
	},
	{
		id: "xml-processing-instruction",
		description: "XML processing instruction: <?xml-stylesheet or <?php etc.",
		pattern: /<\?(?:xml[\- ]|php|asp)/i
	},
	{
		id: "xml-doctype-injection",
		description: "DOCTYPE declaration embedded in content — can define entities",
		pattern: /<!DOCTYPE(?:[\s[]|$)/i
	},
	{
		id: "xml-entity-system",
		description: "SYSTEM keyword — used in external entity declarations (XXE)",
		pattern: /\bSYSTEM\s+["']/i
	},
	{
		id: "xml-entity-public",
		description: "PUBLIC keyword — used in external entity declarations (XXE)",
		pattern: /\bPUBLIC\s+["']/i
	},
	{
		id: "xml-entity-declaration",
		description: "<!ENTITY declaration — defines entities, potential XXE or entity expansion",
		pattern: /<!ENTITY[\s%]/i
	},
	{
		id: "xml-billion-laughs",
		description: "Entity reference chaining / billion laughs: repeated &eX; style references",
		pattern: /(?:&\w{1,20};){3,}/
	},
	{
		id: "xml-namespace-confusion",
		description: "xmlns: attribute injection — can redefine namespaces to confuse parsers",
		pattern: /\bxmlns(?::\w{1,40})?\s*=/i
	},
	{
		id: "xml-comment-injection",
		description: "<!-- comment injection — can hide content from some parsers",
		pattern: /<!--/
	},
	{
		id: "xml-comment-close",
		description: "--> closes an enclosing XML comment",
		pattern: /-->/
	},
	{
		id: "xml-pi-close",
		description: "?> closes an enclosing processing instruction",
		pattern: /\?>/
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/svg.js
/**
* SVG context patterns.
*
* SVG is XML-based but renders in browsers, giving it a unique attack surface
* that combines XML parser behaviour with browser rendering and JavaScript execution.
*
* Many of these vectors bypass HTML sanitizers that don't understand SVG semantics
* (DOMPurify has documented bypass vulnerabilities specifically in SVG/XML context).
*/
var SVG_PATTERNS = [
	{
		id: "svg-script-element",
		description: "<script element inside SVG executes JavaScript",
		pattern: /<script[\s>/]/i
	},
	{
		id: "svg-xlink-href-javascript",
		description: "xlink:href with javascript: — classic SVG XSS via <a> or <use>",
		pattern: /xlink\s*:\s*href\s*=\s*["']?\s*javascript\s*:/i
	},
	{
		id: "svg-href-javascript",
		description: "href= with javascript: in SVG context (<a>, <animate>, etc.)",
		pattern: /href\s*=\s*["']?\s*javascript\s*:/i
	},
	{
		id: "svg-foreignobject",
		description: "<foreignObject embeds HTML inside SVG — can execute scripts",
		pattern: /<foreignObject[\s>/]/i
	},
	{
		id: "svg-use-external",
		description: "<use xlink:href or href pointing to external resource (non-fragment URL)",
		pattern: /<use[\s\S]{0,60}(?:xlink\s*:\s*)?href\s*=\s*(?:["'][^#]|[^"'#\s>])/i
	},
	{
		id: "svg-animate-href",
		description: "<animate attributeName=\"href\" — can dynamically change href to javascript:",
		pattern: /<animate[\s\S]{0,80}attributeName\s*=\s*["'][\s]*href["']/i
	},
	{
		id: "svg-animate-xlinkhref",
		description: "<animate attributeName=\"xlink:href\"",
		pattern: /<animate[\s\S]{0,80}attributeName\s*=\s*["'][\s]*xlink\s*:\s*href["']/i
	},
	{
		id: "svg-set-javascript",
		description: "<set to=\"javascript:...\" — sets an attribute to a javascript: URI",
		pattern: /<set[\s\S]{0,80}to\s*=\s*["']?\s*javascript\s*:/i
	},
	{
		id: "svg-event-handler",
		description: "SVG-specific event handler attributes: onload=, onerror=, onactivate=, etc.",
		pattern: /\bon(?:load|error|activate|begin|end|repeat|focus|blur|click|mouse\w{1,20}|key\w{1,20})\s*=/i
	},
	{
		id: "svg-handler-generic",
		description: "Generic on* handler catch-all for SVG attributes",
		pattern: /\bon\w{1,30}\s*=/i
	},
	{
		id: "svg-filter-feimage",
		description: "<feImage href= — filter primitive that can load external resources",
		pattern: /<feImage[\s\S]{0,80}(?:xlink\s*:\s*)?href\s*=/i
	},
	{
		id: "svg-image-external",
		description: "<image xlink:href with http/https or javascript protocol",
		pattern: /<image[\s\S]{0,80}(?:xlink\s*:\s*)?href\s*=\s*["']?\s*(?:https?|javascript)\s*:/i
	},
	{
		id: "svg-style-javascript",
		description: "style= attribute containing javascript: (e.g. background:url(javascript:...))",
		pattern: /style\s*=[\s\S]{0,60}javascript\s*:/i
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/sql.js
/**
* SQL context patterns — high-precision rules only.
*
* These rules have very low false-positive risk and are safe to apply to
* general user text (names, descriptions, search queries, etc.).
* All patterns are ReDoS-safe — unlike the `sql-injection` npm package
* which has an active CVE on its own detection regexes.
*
* For exhaustive coverage including noisier heuristics (comment sequences,
* hex literals, stacked queries with semicolons), use 'SQL-STRICT' instead.
* Apply 'SQL-STRICT' only to strings that are specifically SQL fragments,
* not to general free-text fields.
*/
var SQL_PATTERNS = [
	{
		id: "sql-block-comment-open",
		description: "SQL block comment open: /* ... */ — unusual in legitimate user text",
		pattern: /\/\*/
	},
	{
		id: "sql-union-select",
		description: "UNION SELECT — most common SQL injection aggregation attack",
		pattern: /\bUNION\s{1,20}(?:ALL\s{1,20})?SELECT\b/i
	},
	{
		id: "sql-drop-table",
		description: "DROP TABLE — destructive DDL injection",
		pattern: /\bDROP\s{1,20}TABLE\b/i
	},
	{
		id: "sql-drop-database",
		description: "DROP DATABASE — destructive DDL injection",
		pattern: /\bDROP\s{1,20}DATABASE\b/i
	},
	{
		id: "sql-insert-into",
		description: "INSERT INTO — data injection",
		pattern: /\bINSERT\s{1,20}INTO\b/i
	},
	{
		id: "sql-delete-from",
		description: "DELETE FROM — data deletion injection",
		pattern: /\bDELETE\s{1,20}FROM\b/i
	},
	{
		id: "sql-update-set",
		description: "UPDATE ... SET — data modification injection",
		pattern: /\bUPDATE\b[\s\S]{1,60}\bSET\b/i
	},
	{
		id: "sql-exec-xp",
		description: "EXEC xp_ — MSSQL extended stored procedure execution",
		pattern: /\bEXEC(?:UTE)?\s{1,20}xp_/i
	},
	{
		id: "sql-tautology-string",
		description: "Classic string tautology: ' OR '1'='1 or \" OR \"1\"=\"1\"",
		pattern: /'\s{0,10}OR\s{0,10}'[^']{0,20}'\s*=\s*'[^']{0,20}/i
	},
	{
		id: "sql-tautology-numeric",
		description: "Numeric tautology: OR 1=1",
		pattern: /\bOR\s{1,10}1\s*=\s*1\b/i
	},
	{
		id: "sql-always-true-zero",
		description: "Numeric tautology: OR 0=0",
		pattern: /\bOR\s{1,10}0\s*=\s*0\b/i
	},
	{
		id: "sql-sleep-benchmark",
		description: "Time-based blind injection: SLEEP() or BENCHMARK()",
		pattern: /\b(?:SLEEP|BENCHMARK)\s*\(/i
	},
	{
		id: "sql-waitfor-delay",
		description: "MSSQL time-based blind injection: WAITFOR DELAY",
		pattern: /\bWAITFOR\s{1,20}DELAY\b/i
	},
	{
		id: "sql-char-function",
		description: "CHAR() function — used to obfuscate injected strings",
		pattern: /\bCHAR\s*\(\s*\d{1,3}/i
	},
	{
		id: "sql-information-schema",
		description: "INFORMATION_SCHEMA — reconnaissance query for table/column enumeration",
		pattern: /\bINFORMATION_SCHEMA\b/i
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/shell.js
/**
* SHELL context patterns.
*
* Detects shell injection vectors and path traversal patterns.
* Designed for use when a string will be passed to a shell command,
* used as a file path, or interpolated into OS-level operations.
*/
var SHELL_PATTERNS = [
	{
		id: "shell-path-traversal-unix",
		description: "Unix path traversal: ../  — climbing the directory tree",
		pattern: /\.\.\//
	},
	{
		id: "shell-path-traversal-windows",
		description: "Windows path traversal: ..\\ — climbing the directory tree",
		pattern: /\.\.\\/
	},
	{
		id: "shell-path-traversal-encoded",
		description: "URL-encoded path traversal: %2e%2e or %2f variants",
		pattern: /%2e%2e|%2f\.\.|\.\.%2f/i
	},
	{
		id: "shell-null-byte",
		description: "Null byte injection: \\x00 or %00 — truncates strings in C-backed functions",
		pattern: /\x00|%00/
	},
	{
		id: "shell-semicolon",
		description: "Semicolon command separator: cmd1; cmd2",
		pattern: /;/
	},
	{
		id: "shell-pipe",
		description: "Pipe operator: cmd1 | cmd2",
		pattern: /\|/
	},
	{
		id: "shell-and-operator",
		description: "AND operator: cmd1 && cmd2",
		pattern: /&&/
	},
	{
		id: "shell-or-operator",
		description: "OR operator: cmd1 || cmd2",
		pattern: /\|\|/
	},
	{
		id: "shell-backtick",
		description: "Backtick command substitution: `cmd`",
		pattern: /`/
	},
	{
		id: "shell-dollar-paren",
		description: "Dollar-paren command substitution: $(cmd)",
		pattern: /\$\(/
	},
	{
		id: "shell-dollar-brace",
		description: "Dollar-brace variable expansion: ${var} — can be abused for injection",
		pattern: /\$\{/
	},
	{
		id: "shell-redirect-out",
		description: "Output redirection: cmd > file or cmd >> file",
		pattern: />{1,2}/
	},
	{
		id: "shell-redirect-in",
		description: "Input redirection: cmd < file",
		pattern: /</
	},
	{
		id: "shell-newline-injection",
		description: "Newline injection: \\n or \\r — can inject new shell commands",
		pattern: /[\n\r]/
	},
	{
		id: "shell-glob-star",
		description: "Glob expansion: * or ? — can expand to unintended files",
		pattern: /[/\\][*?]/
	},
	{
		id: "shell-absolute-root",
		description: "Absolute root path injection: string starting with / or \\ (Windows UNC)",
		pattern: /^(?:\/|\\\\)/
	},
	{
		id: "shell-windows-drive",
		description: "Windows drive letter path injection: C:\\ or D:/",
		pattern: /^[a-zA-Z]:[/\\]/
	},
	{
		id: "shell-curl-wget",
		description: "curl/wget with URL or flags — can exfiltrate data or download payloads",
		pattern: /\b(?:curl|wget)\s+(?:https?:\/\/|ftp:\/\/|-)/i
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/redos.js
/**
* REDOS context patterns.
*
* Detects strings that, if used as regular expressions, could cause
* catastrophic backtracking (ReDoS — Regular Expression Denial of Service).
*
* These patterns detect the structural forms that lead to exponential or
* polynomial backtracking in NFA-based regex engines (V8, PCRE, Java, etc.).
*
* Use this context when user-supplied strings will be compiled into RegExp objects.
*/
var REDOS_PATTERNS = [
	{
		id: "redos-nested-quantifier-plus",
		description: "Nested + quantifier inside a group with outer quantifier: (a+)+, (.+b)*, etc.",
		pattern: /\([^)]*\+[^)]*\)[+*]/
	},
	{
		id: "redos-nested-quantifier-star",
		description: "Nested * quantifier: (a*)* or (a*)+ — catastrophic backtracking",
		pattern: /\([^)]*\*[^)]*\)[*+]/
	},
	{
		id: "redos-nested-groups",
		description: "Doubly nested quantified groups: ((a+)+) — guaranteed catastrophic",
		pattern: /\(\([^)]{0,40}\)[+*]\)[+*]/
	},
	{
		id: "redos-alternation-overlap",
		description: "Overlapping alternation under quantifier: (a|a)+ — ambiguous NFA paths",
		pattern: /\(([^|()]{1,20})\|(?:\1)(?:\|[^|()]{1,20}){0,5}\)[+*?]{1,2}/
	},
	{
		id: "redos-star-plus-concat",
		description: "(x*x)+ pattern — triggers super-linear backtracking",
		pattern: /\([^)]{0,10}\*[^)]{0,10}\)[+*]/
	},
	{
		id: "redos-dot-star-greedy",
		description: "(.*){n,} or (.+){n,} — repeated greedy dot quantifiers",
		pattern: /\(\.[*+]\)\{?\d/
	},
	{
		id: "redos-large-repetition",
		description: "Very large fixed or range repetition count {1000,} or {1000,n} — denial of service via backtracking",
		pattern: /\{\d{4,}(?:,\d*)?\}/
	},
	{
		id: "redos-catastrophic-alternation",
		description: "Long alternation with many similar branches — polynomial backtracking risk",
		pattern: /\([^)]{0,200}(?:\|[^|)]{0,50}){9,}\)/
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/nosql.js
var sep = "[\"'\\s]*:";
var NOSQL_PATTERNS = [
	{
		id: "nosql-where-operator",
		description: "$where — executes arbitrary JavaScript server-side in MongoDB",
		pattern: new RegExp(`\\$where${sep}`, "i")
	},
	{
		id: "nosql-ne-operator",
		description: "$ne — \"not equal\" operator used to bypass equality checks",
		pattern: new RegExp(`\\$ne${sep}`, "i")
	},
	{
		id: "nosql-gt-operator",
		description: "$gt — \"greater than\" used to bypass password/value checks",
		pattern: new RegExp(`\\$gte?${sep}`, "i")
	},
	{
		id: "nosql-lt-operator",
		description: "$lt / $lte — \"less than\" bypass variants",
		pattern: new RegExp(`\\$lte?${sep}`, "i")
	},
	{
		id: "nosql-regex-operator",
		description: "$regex — can be used to extract data character by character (blind injection)",
		pattern: new RegExp(`\\$regex${sep}`, "i")
	},
	{
		id: "nosql-or-operator",
		description: "$or — logical OR; used to create always-true conditions",
		pattern: new RegExp(`\\$or${sep}\\s*\\[`, "i")
	},
	{
		id: "nosql-and-operator",
		description: "$and — logical AND operator injection",
		pattern: new RegExp(`\\$and${sep}\\s*\\[`, "i")
	},
	{
		id: "nosql-nor-operator",
		description: "$nor — logical NOR operator injection",
		pattern: new RegExp(`\\$nor${sep}\\s*\\[`, "i")
	},
	{
		id: "nosql-exists-operator",
		description: "$exists — can enumerate fields to determine schema",
		pattern: new RegExp(`\\$exists${sep}`, "i")
	},
	{
		id: "nosql-in-operator",
		description: "$in — matches any value in a list; can enumerate values",
		pattern: new RegExp(`\\$in${sep}\\s*\\[`, "i")
	},
	{
		id: "nosql-expr-operator",
		description: "$expr — allows aggregation expressions in queries (MongoDB 3.6+)",
		pattern: new RegExp(`\\$expr${sep}`, "i")
	},
	{
		id: "nosql-function-operator",
		description: "$function — executes arbitrary JavaScript in MongoDB 4.4+",
		pattern: new RegExp(`\\$function${sep}`, "i")
	},
	{
		id: "nosql-accumulator-operator",
		description: "$accumulator — custom aggregation with arbitrary JS execution",
		pattern: new RegExp(`\\$accumulator${sep}`, "i")
	},
	{
		id: "nosql-proto-pollution",
		description: "__proto__ — prototype pollution via object key injection",
		pattern: /__proto__/
	},
	{
		id: "nosql-constructor-prototype",
		description: "constructor.prototype — alternative prototype pollution vector (dot notation or JSON key)",
		pattern: /constructor[\s"':.,{\[]*prototype/i
	},
	{
		id: "nosql-proto-bracket",
		description: "[\"__proto__\"] — bracket-notation prototype pollution",
		pattern: /\[["']__proto__["']\]/
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/log.js
/**
* LOG context patterns.
*
* Detects injection vectors that are dangerous when a string is written
* to a log file, passed to a logging framework, or interpolated into
* a log message that will be parsed or displayed.
*
* Attack categories:
*   1. CRLF injection — injects fake log lines by embedding newlines
*   2. Log4Shell (CVE-2021-44228) — ${jndi:...} triggers JNDI lookup in Log4j
*   3. SSTI in log templates — {{...}}, #{...} trigger template evaluation
*      if the log message is passed through a template engine
*   4. Null byte injection — truncates log entries in some implementations
*   5. ANSI escape injection — manipulates terminal output when logs are
*      tailed in a terminal (colour codes, cursor movement, etc.)
*
* Note: Newline characters (\n, \r) will produce false positives for
* multi-line legitimate values. Use this context only for single-line
* log field values (usernames, IDs, request parameters, etc.).
*/
var LOG_PATTERNS = [
	{
		id: "log-crlf-injection",
		description: "CRLF injection: literal \\r or \\n embeds fake log lines",
		pattern: /[\r\n]/
	},
	{
		id: "log-url-encoded-crlf",
		description: "URL-encoded CRLF: %0d, %0a, %0D, %0A — decoded by some log parsers",
		pattern: /%0[dDaA]/
	},
	{
		id: "log-unicode-newline",
		description: "Unicode newline variants: U+2028 (line separator), U+2029 (paragraph separator)",
		pattern: /[\u2028\u2029]/
	},
	{
		id: "log-log4shell-jndi",
		description: "Log4Shell: ${jndi:...} triggers remote code execution in Apache Log4j",
		pattern: /\$\{jndi\s*:/i
	},
	{
		id: "log-log4shell-obfuscated",
		description: "Obfuscated Log4Shell: ${::-j}... lookup-bypass prefix used to evade WAF detection",
		pattern: /\$\{::-/
	},
	{
		id: "log-log4j-lookup",
		description: "Log4j lookup syntax: ${env:...}, ${sys:...}, ${ctx:...} — data exfiltration",
		pattern: /\$\{(?:env|sys|ctx|main|map|sd|web|docker|k8s|spring)\s*:/i
	},
	{
		id: "log-ssti-double-brace",
		description: "SSTI double-brace: {{expression}} — Jinja2, Twig, Handlebars, etc.",
		pattern: /\{\{[\s\S]{0,80}\}\}/
	},
	{
		id: "log-ssti-hash-brace",
		description: "SSTI hash-brace: #{expression} — Thymeleaf, Velocity, Ruby ERB",
		pattern: /#\{[\s\S]{0,80}\}/
	},
	{
		id: "log-ssti-dollar-brace",
		description: "SSTI/EL injection: ${expression with operators or method calls} — JSP EL, Freemarker, SpEL",
		pattern: /\$\{[^}]*(?:\.|\(|\*|\+|\bclass\b|\bruntime\b|\bprocess\b|\bexec\b)[^}]{0,80}\}/i
	},
	{
		id: "log-ssti-percent-tag",
		description: "SSTI ERB/ASP tag: <%= expression %> — Ruby ERB, ASP",
		pattern: /<%=[\s\S]{0,80}%>/
	},
	{
		id: "log-null-byte",
		description: "Null byte: \\x00 or %00 — can truncate log entries in C-backed loggers",
		pattern: /\x00|%00/
	},
	{
		id: "log-ansi-escape",
		description: "ANSI escape sequence: ESC[ — can manipulate terminal output when logs are tailed",
		pattern: /\x1b\[/
	}
];
// ../../work/wt-reader/node_modules/is-unsafe/src/contexts/sql-strict.js
/**
* SQL-STRICT context patterns.
*
* Extends the base 'SQL' context with three additional rules that are
* effective at detecting real injections but carry a higher false-positive
* risk on general free-text input.
*
* Use 'SQL-STRICT' when:
*   - The string is specifically a SQL fragment or database identifier
*   - You control the input domain (e.g. a dedicated SQL search field)
*   - You can tolerate occasional false positives in exchange for broader coverage
*
* Use 'SQL' (not STRICT) when:
*   - The field is general user text (names, descriptions, comments)
*   - False positives would block legitimate content (e.g. "see note -- above")
*
* Rules moved here from 'SQL' due to false-positive risk:
*
*   sql-line-comment   — "--" fires on "see note -- above", "value--", CSS var(--primary)
*   sql-stacked-query  — "; SELECT" fires on legitimate prose with semicolons + SQL words
*   sql-hex-encoding   — "0xDEAD" fires on hex values in technical docs and log output
*/
var SQL_STRICT_EXTRA = [
	{
		id: "sql-line-comment",
		description: "SQL line comment: -- followed by whitespace or end of string",
		pattern: /--(?:\s|$)/
	},
	{
		id: "sql-stacked-query",
		description: "Stacked queries: semicolon immediately followed by a SQL keyword",
		pattern: /;\s{0,10}(?:SELECT|INSERT|UPDATE|DELETE|DROP|CREATE|ALTER|EXEC)\b/i
	},
	{
		id: "sql-hex-encoding",
		description: "Hex-encoded string injection: 0x41414141 style (MySQL)",
		pattern: /\b0x[0-9a-f]{4,}/i
	}
];
var SQL_STRICT_PATTERNS = [...SQL_PATTERNS, ...SQL_STRICT_EXTRA];
// ../../work/wt-reader/node_modules/is-unsafe/src/util/decode-entities.js
/**
* Decode the HTML character references that matter for markup-context
* detection.
*
* Browsers decode character references in attribute values before they
* interpret a URL, so `javascript&#58;alert(1)` in an href is the
* `javascript:` scheme. The HTML/XML/SVG rules match literal characters, so
* without this step such payloads slip through.
*
* Deliberately NOT a full entity decoder. It decodes only:
*   - decimal refs  &#58;  &#058;  &#00000058;  &#58   (any leading zeros,
*                   trailing ; optional — browsers accept both)
*   - hex refs      &#x3a; &#X3A; &#x0000003a; &#x3a   (same)
*   - named refs    &colon;  &Tab;  &NewLine;
*       Named refs are CASE-SENSITIVE and REQUIRE the trailing ';', exactly
*       like a browser (so `&COLON;` and `&colon` are not decoded).
*       &Tab; / &NewLine; matter because the URL parser strips tab/newline,
*       so `java&Tab;script:` is still a javascript: URL.
*
* It does NOT decode &amp; (single pass only), so double-encoded text such as
* "&amp;lt;script&amp;gt;" stays literal — a browser renders that as text.
*
* All quantifiers are bounded; no ReDoS risk.
*
* @param {string} input
* @returns {string}
*/
var NAMED = Object.freeze({
	colon: ":",
	Tab: "	",
	NewLine: "\n"
});
var ENTITY_RE = /&(?:#[xX]0*([0-9a-fA-F]{1,6});?|#0*([0-9]{1,7});?|([a-zA-Z][a-zA-Z0-9]{1,15});)/g;
function decodeEntities(input) {
	if (input.indexOf("&") === -1) return input;
	return input.replace(ENTITY_RE, (match, hex, dec, name) => {
		if (name !== void 0) return Object.prototype.hasOwnProperty.call(NAMED, name) ? NAMED[name] : match;
		const cp = hex !== void 0 ? parseInt(hex, 16) : parseInt(dec, 10);
		if (!Number.isFinite(cp) || cp > 1114111) return match;
		return String.fromCodePoint(cp);
	});
}
// ../../work/wt-reader/node_modules/is-unsafe/src/index.js
HTML_PATTERNS.label = "HTML";
XML_PATTERNS.label = "XML";
SVG_PATTERNS.label = "SVG";
HTML_PATTERNS.decodeEntities = true;
XML_PATTERNS.decodeEntities = true;
SVG_PATTERNS.decodeEntities = true;
SQL_PATTERNS.label = "SQL";
SQL_STRICT_PATTERNS.label = "SQL-STRICT";
SHELL_PATTERNS.label = "SHELL";
REDOS_PATTERNS.label = "REDOS";
NOSQL_PATTERNS.label = "NOSQL";
LOG_PATTERNS.label = "LOG";
Object.freeze({
	HTML: HTML_PATTERNS,
	XML: XML_PATTERNS,
	SVG: SVG_PATTERNS,
	SQL: SQL_PATTERNS,
	"SQL-STRICT": SQL_STRICT_PATTERNS,
	SHELL: SHELL_PATTERNS,
	REDOS: REDOS_PATTERNS,
	NOSQL: NOSQL_PATTERNS,
	LOG: LOG_PATTERNS
});
/**
* @typedef {{ id: string, description: string, pattern: RegExp }} Rule
*/
/**
* @typedef {Rule[]} PatternList
*/
/**
* @typedef {Object} MatchResult
* @property {string} context     - Label identifying which context matched ('HTML', 'CUSTOM', etc.)
* @property {string} id          - Rule identifier
* @property {string} description - Human-readable description of what was matched
* @property {RegExp} pattern     - The pattern that matched
*/
/**
* @param {unknown} value
*/
function assertString(value) {
	if (typeof value !== "string") throw new TypeError(`is-unsafe: first argument must be a string, got ${typeof value}`);
}
/**
* @param {unknown} context
*/
function assertContext(context) {
	if (context instanceof RegExp) return;
	if (Array.isArray(context)) {
		if (context.length === 0) throw new TypeError("is-unsafe: context must not be an empty array");
		if (Array.isArray(context[0])) {
			for (const list of context) if (!Array.isArray(list) || list.length === 0) throw new TypeError("is-unsafe: each context in the array must be a non-empty pattern array (PatternList)");
		}
		return;
	}
	throw new TypeError(`is-unsafe: second argument must be a PatternList (e.g. HTML), an array of PatternLists (e.g. [HTML, XML]), or a RegExp. Got: ${typeof context}`);
}
/**
* Normalise any valid context arg into an array of PatternLists.
*
* @param {Rule[]|Rule[][]|RegExp} context
* @returns {{ lists: Rule[][]|null, regex: RegExp|null }}
*/
function normalise(context) {
	if (context instanceof RegExp) return {
		lists: null,
		regex: context
	};
	if (Array.isArray(context[0])) return {
		lists: context,
		regex: null
	};
	return {
		lists: [context],
		regex: null
	};
}
/**
* For markup contexts, return an entity-decoded copy of `value` to test
* alongside the raw input, or null when there is nothing extra to test.
*
* @param {string} value
* @param {Rule[]} list
* @returns {string|null}
*/
function decodedCopy(value, list) {
	if (!list.decodeEntities) return null;
	const decoded = decodeEntities(value);
	return decoded === value ? null : decoded;
}
/**
* Test value against a single PatternList. Returns the first MatchResult or null.
*
* @param {string} value
* @param {Rule[]} list
* @returns {MatchResult|null}
*/
function matchList(value, list) {
	const label = list.label ?? "CUSTOM";
	const decoded = decodedCopy(value, list);
	for (const rule of list) if (rule.pattern.test(value) || decoded !== null && rule.pattern.test(decoded)) return {
		context: label,
		id: rule.id,
		description: rule.description,
		pattern: rule.pattern
	};
	return null;
}
/**
* Returns `true` if `value` is unsafe in the given context(s), `false` otherwise.
*
* @param {string} value - The string to test
* @param {PatternList | PatternList[] | RegExp} context
*   - A PatternList imported from is-unsafe (e.g. `HTML`, `XML`)
*   - An array of PatternLists — returns true if unsafe in **any** of them
*   - A custom RegExp — returns true if the pattern matches
* @returns {boolean}
*
* @example
* import { isUnsafe, HTML, SQL } from 'is-unsafe';
*
* isUnsafe('<script>alert(1)<\/script>', HTML)       // true
* isUnsafe('hello world', HTML)                     // false
* isUnsafe('value', [HTML, SQL])                    // false
* isUnsafe('value', /my-pattern/i)                  // false
*/
function isUnsafe(value, context) {
	assertString(value);
	assertContext(context);
	const { lists, regex } = normalise(context);
	if (regex) return regex.test(value);
	for (const list of lists) if (matchList(value, list) !== null) return true;
	return false;
}
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/OrderedObjParser.js
/**
* Extract raw attributes (without prefix) from prefixed attribute map
* @param {object} prefixedAttrs - Attributes with prefix from buildAttributesMap
* @param {object} options - Parser options containing attributeNamePrefix
* @returns {object} Raw attributes for matcher
*/
function extractRawAttributes(prefixedAttrs, options) {
	if (!prefixedAttrs) return {};
	const attrs = options.attributesGroupName ? prefixedAttrs[options.attributesGroupName] : prefixedAttrs;
	if (!attrs) return {};
	const rawAttrs = {};
	for (const key in attrs) if (key.startsWith(options.attributeNamePrefix)) {
		const rawName = key.substring(options.attributeNamePrefix.length);
		rawAttrs[rawName] = attrs[key];
	} else rawAttrs[key] = attrs[key];
	return rawAttrs;
}
/**
* Extract namespace from raw tag name
* @param {string} rawTagName - Tag name possibly with namespace (e.g., "soap:Envelope")
* @returns {string|undefined} Namespace or undefined
*/
function extractNamespace(rawTagName) {
	if (!rawTagName || typeof rawTagName !== "string") return void 0;
	const colonIndex = rawTagName.indexOf(":");
	if (colonIndex !== -1 && colonIndex > 0) {
		const ns = rawTagName.substring(0, colonIndex);
		if (ns !== "xmlns") return ns;
	}
}
var OrderedObjParser = class {
	constructor(options, externalEntities) {
		this.options = options;
		this.currentNode = null;
		this.tagsNodeStack = [];
		this.parseXml = parseXml;
		this.parseTextData = parseTextData;
		this.resolveNameSpace = resolveNameSpace;
		this.buildAttributesMap = buildAttributesMap;
		this.isItStopNode = isItStopNode;
		this.replaceEntitiesValue = replaceEntitiesValue;
		this.readStopNodeData = readStopNodeData;
		this.saveTextToParentTag = saveTextToParentTag;
		this.addChild = addChild;
		this.ignoreAttributesFn = getIgnoreAttributesFn(this.options.ignoreAttributes);
		this.entityExpansionCount = 0;
		this.currentExpandedLength = 0;
		this.doctypefound = false;
		let namedEntities = { ...XML };
		if (this.options.entityDecoder) this.entityDecoder = this.options.entityDecoder;
		else {
			if (typeof this.options.htmlEntities === "object") namedEntities = this.options.htmlEntities;
			else if (this.options.htmlEntities === true) namedEntities = {
				...COMMON_HTML,
				...CURRENCY
			};
			this.entityDecoder = new EntityDecoder({
				namedEntities: {
					...namedEntities,
					...externalEntities
				},
				numericAllowed: this.options.htmlEntities,
				limit: {
					maxTotalExpansions: this.options.processEntities.maxTotalExpansions,
					maxExpandedLength: this.options.processEntities.maxExpandedLength,
					applyLimitsTo: this.options.processEntities.appliesTo
				},
				onInputEntity: (name, value) => isUnsafe(value, [HTML_PATTERNS, XML_PATTERNS]) ? ENTITY_ACTION.BLOCK : ENTITY_ACTION.ALLOW
			});
		}
		this.matcher = new Matcher();
		this.readonlyMatcher = this.matcher.readOnly();
		this.isCurrentNodeStopNode = false;
		this.stopNodeExpressionsSet = new ExpressionSet();
		const stopNodesOpts = this.options.stopNodes;
		if (stopNodesOpts && stopNodesOpts.length > 0) {
			for (let i = 0; i < stopNodesOpts.length; i++) {
				const stopNodeExp = stopNodesOpts[i];
				if (typeof stopNodeExp === "string") this.stopNodeExpressionsSet.add(new Expression(stopNodeExp));
				else if (stopNodeExp instanceof Expression) this.stopNodeExpressionsSet.add(stopNodeExp);
			}
			this.stopNodeExpressionsSet.seal();
		}
	}
};
/**
* @param {string} val
* @param {string} tagName
* @param {string|Matcher} jPath - jPath string or Matcher instance based on options.jPath
* @param {boolean} dontTrim
* @param {boolean} hasAttributes
* @param {boolean} isLeafNode
* @param {boolean} escapeEntities
*/
function parseTextData(val, tagName, jPath, dontTrim, hasAttributes, isLeafNode, escapeEntities) {
	const options = this.options;
	if (val !== void 0) {
		if (options.trimValues && !dontTrim) val = val.trim();
		if (val.length > 0) {
			if (!escapeEntities) val = this.replaceEntitiesValue(val, tagName, jPath);
			const jPathOrMatcher = options.jPath ? jPath.toString() : jPath;
			const newval = options.tagValueProcessor(tagName, val, jPathOrMatcher, hasAttributes, isLeafNode);
			if (newval === null || newval === void 0) return val;
			else if (typeof newval !== typeof val || newval !== val) return newval;
			else if (options.trimValues) return parseValue(val, options.parseTagValue, options.numberParseOptions);
			else if (val.trim() === val) return parseValue(val, options.parseTagValue, options.numberParseOptions);
			else return val;
		}
	}
}
function resolveNameSpace(tagname) {
	if (this.options.removeNSPrefix) {
		const tags = tagname.split(":");
		const prefix = tagname.charAt(0) === "/" ? "/" : "";
		if (tags[0] === "xmlns") return "";
		if (tags.length === 2) tagname = prefix + tags[1];
	}
	return tagname;
}
var attrsRegx = /([^\s=]+)\s*(=\s*(?:"([^"]*)"|'([^']*)'))?/gm;
function attrValue(match) {
	return match[3] !== void 0 ? match[3] : match[4];
}
function buildAttributesMap(attrStr, jPath, tagName, force = false) {
	const options = this.options;
	if (force === true || options.ignoreAttributes !== true && typeof attrStr === "string") {
		const matches = getAllMatches(attrStr, attrsRegx);
		const len = matches.length;
		const attrs = {};
		const processedVals = new Array(len);
		let hasRawAttrs = false;
		const rawAttrsForMatcher = {};
		for (let i = 0; i < len; i++) {
			const attrName = this.resolveNameSpace(matches[i][1]);
			const oldVal = attrValue(matches[i]);
			if (attrName.length && oldVal !== void 0) {
				let val = oldVal;
				if (options.trimValues) val = val.trim();
				val = this.replaceEntitiesValue(val, tagName, this.readonlyMatcher);
				processedVals[i] = val;
				rawAttrsForMatcher[attrName] = val;
				hasRawAttrs = true;
			}
		}
		if (hasRawAttrs && typeof jPath === "object" && jPath.updateCurrent) jPath.updateCurrent(rawAttrsForMatcher);
		const jPathStr = options.jPath ? jPath.toString() : this.readonlyMatcher;
		let hasAttrs = false;
		for (let i = 0; i < len; i++) {
			const attrName = this.resolveNameSpace(matches[i][1]);
			if (this.ignoreAttributesFn(attrName, jPathStr)) continue;
			let aName = options.attributeNamePrefix + attrName;
			if (attrName.length) {
				if (options.transformAttributeName) aName = options.transformAttributeName(aName);
				aName = sanitizeName(aName, options);
				if (attrValue(matches[i]) !== void 0) {
					const oldVal = processedVals[i];
					const newVal = options.attributeValueProcessor(attrName, oldVal, jPathStr);
					if (newVal === null || newVal === void 0) attrs[aName] = oldVal;
					else if (typeof newVal !== typeof oldVal || newVal !== oldVal) attrs[aName] = newVal;
					else attrs[aName] = parseValue(oldVal, options.parseAttributeValue, options.numberParseOptions);
					hasAttrs = true;
				} else if (options.allowBooleanAttributes) {
					attrs[aName] = true;
					hasAttrs = true;
				}
			}
		}
		if (!hasAttrs) return;
		if (options.attributesGroupName && !options.preserveOrder) {
			const attrCollection = {};
			attrCollection[options.attributesGroupName] = attrs;
			return attrCollection;
		}
		return attrs;
	}
}
var parseXml = function(xmlData) {
	const options = this.options;
	const crlfPositions = options.captureMetaData ? [] : void 0;
	xmlData = xmlData.replace(/\r\n?/g, options.captureMetaData ? (newline, index) => {
		if (newline.length === 2) crlfPositions.push(index - crlfPositions.length);
		return "\n";
	} : "\n");
	const xmlObj = new XmlNode("!xml");
	let currentNode = xmlObj;
	let textData = "";
	this.matcher.reset();
	this.entityDecoder.reset();
	this.entityExpansionCount = 0;
	this.currentExpandedLength = 0;
	this.doctypefound = false;
	const docTypeReader = new DocTypeReader(options.processEntities);
	const xmlLen = xmlData.length;
	for (let i = 0; i < xmlLen; i++) if (xmlData[i] === "<") {
		const c1 = xmlData.charCodeAt(i + 1);
		if (c1 === 47) {
			const closeIndex = findClosingIndex(xmlData, ">", i, "Closing Tag is not closed.");
			let tagName = xmlData.substring(i + 2, closeIndex).trim();
			if (options.removeNSPrefix) {
				const colonIndex = tagName.indexOf(":");
				if (colonIndex !== -1) tagName = tagName.substr(colonIndex + 1);
			}
			tagName = transformTagName(options.transformTagName, tagName, "", options).tagName;
			if (currentNode) textData = this.saveTextToParentTag(textData, currentNode, this.readonlyMatcher);
			const lastTagName = this.matcher.getCurrentTag();
			if (tagName && options.unpairedTagsSet.has(tagName)) throw new Error(`Unpaired tag can not be used as closing tag: </${tagName}>`);
			if (lastTagName && options.unpairedTagsSet.has(lastTagName)) {
				this.matcher.pop();
				this.tagsNodeStack.pop();
			}
			this.matcher.pop();
			this.isCurrentNodeStopNode = false;
			currentNode = this.tagsNodeStack.pop() || xmlObj;
			if (options.captureMetaData && currentNode) currentNode.addEndIndex(getOriginalIndex(closeIndex + 1, crlfPositions));
			textData = "";
			i = closeIndex;
		} else if (c1 === 63) {
			let tagData = readTagExp(xmlData, i, false, "?>");
			if (!tagData) throw new Error("Pi Tag is not closed.");
			textData = this.saveTextToParentTag(textData, currentNode, this.readonlyMatcher);
			const attsMap = this.buildAttributesMap(tagData.tagExp, this.matcher, tagData.tagName, true);
			if (attsMap) {
				const ver = attsMap[this.options.attributeNamePrefix + "version"];
				this.entityDecoder.setXmlVersion(Number(ver) || 1);
				docTypeReader.setXmlVersion(Number(ver) || 1);
			}
			if (options.ignoreDeclaration && tagData.tagName === "?xml" || options.ignorePiTags) {} else {
				const childNode = new XmlNode(tagData.tagName);
				childNode.add(options.textNodeName, "");
				if (tagData.tagName !== tagData.tagExp && tagData.attrExpPresent && options.ignoreAttributes !== true) childNode[":@"] = attsMap;
				const startIndex = options.captureMetaData ? getOriginalIndex(i, crlfPositions) : i;
				this.addChild(currentNode, childNode, this.readonlyMatcher, startIndex);
				if (options.captureMetaData) currentNode.addEndIndex(getOriginalIndex(tagData.closeIndex + 2, crlfPositions));
			}
			i = tagData.closeIndex + 1;
		} else if (c1 === 33 && xmlData.charCodeAt(i + 2) === 45 && xmlData.charCodeAt(i + 3) === 45) {
			const endIndex = findClosingIndex(xmlData, "-->", i + 4, "Comment is not closed.");
			if (options.commentPropName) {
				const comment = xmlData.substring(i + 4, endIndex - 2);
				textData = this.saveTextToParentTag(textData, currentNode, this.readonlyMatcher);
				currentNode.add(options.commentPropName, [{ [options.textNodeName]: comment }]);
			}
			i = endIndex;
		} else if (c1 === 33 && xmlData.charCodeAt(i + 2) === 68) {
			if (this.doctypefound) throw new Error("Multiple DOCTYPE declarations found.");
			this.doctypefound = true;
			const result = docTypeReader.readDocType(xmlData, i);
			this.entityDecoder.addInputEntities(result.entities);
			i = result.i;
		} else if (c1 === 33 && xmlData.charCodeAt(i + 2) === 91) {
			const closeIndex = findClosingIndex(xmlData, "]]>", i, "CDATA is not closed.") - 2;
			const tagExp = xmlData.substring(i + 9, closeIndex);
			textData = this.saveTextToParentTag(textData, currentNode, this.readonlyMatcher);
			let val = this.parseTextData(tagExp, currentNode.tagname, this.readonlyMatcher, true, false, true, true);
			if (val == void 0) val = "";
			if (options.cdataPropName) currentNode.add(options.cdataPropName, [{ [options.textNodeName]: tagExp }]);
			else currentNode.add(options.textNodeName, val);
			i = closeIndex + 2;
		} else {
			let result = readTagExp(xmlData, i, options.removeNSPrefix);
			if (!result) {
				const context = xmlData.substring(Math.max(0, i - 50), Math.min(xmlLen, i + 50));
				throw new Error(`readTagExp returned undefined at position ${i}. Context: "${context}"`);
			}
			let tagName = result.tagName;
			const rawTagName = result.rawTagName;
			let tagExp = result.tagExp;
			let attrExpPresent = result.attrExpPresent;
			let closeIndex = result.closeIndex;
			({tagName, tagExp} = transformTagName(options.transformTagName, tagName, tagExp, options));
			if (options.strictReservedNames && (tagName === options.commentPropName || tagName === options.cdataPropName || tagName === options.textNodeName || tagName === options.attributesGroupName)) throw new Error(`Invalid tag name: ${tagName}`);
			if (currentNode && textData) {
				if (currentNode.tagname !== "!xml") textData = this.saveTextToParentTag(textData, currentNode, this.readonlyMatcher, false);
			}
			const lastTag = currentNode;
			if (lastTag && options.unpairedTagsSet.has(lastTag.tagname)) {
				currentNode = this.tagsNodeStack.pop();
				this.matcher.pop();
			}
			let isSelfClosing = false;
			if (tagExp.length > 0 && tagExp.lastIndexOf("/") === tagExp.length - 1) {
				isSelfClosing = true;
				if (tagName[tagName.length - 1] === "/") {
					tagName = tagName.substr(0, tagName.length - 1);
					tagExp = tagName;
				} else tagExp = tagExp.substr(0, tagExp.length - 1);
				attrExpPresent = tagName !== tagExp;
			}
			let prefixedAttrs = null;
			let namespace = void 0;
			namespace = extractNamespace(rawTagName);
			if (tagName !== xmlObj.tagname) this.matcher.push(tagName, {}, namespace);
			if (tagName !== tagExp && attrExpPresent) {
				prefixedAttrs = this.buildAttributesMap(tagExp, this.matcher, tagName);
				if (prefixedAttrs) extractRawAttributes(prefixedAttrs, options);
			}
			if (tagName !== xmlObj.tagname) this.isCurrentNodeStopNode = this.isItStopNode();
			const startIndex = options.captureMetaData ? getOriginalIndex(i, crlfPositions) : i;
			if (this.isCurrentNodeStopNode) {
				let tagContent = "";
				if (isSelfClosing) i = result.closeIndex;
				else if (options.unpairedTagsSet.has(tagName)) i = result.closeIndex;
				else {
					const result = this.readStopNodeData(xmlData, rawTagName, closeIndex + 1);
					if (!result) throw new Error(`Unexpected end of ${rawTagName}`);
					i = result.i;
					tagContent = result.tagContent;
				}
				const childNode = new XmlNode(tagName);
				if (prefixedAttrs) childNode[":@"] = prefixedAttrs;
				childNode.add(options.textNodeName, tagContent);
				this.matcher.pop();
				this.isCurrentNodeStopNode = false;
				this.addChild(currentNode, childNode, this.readonlyMatcher, startIndex);
				if (options.captureMetaData) currentNode.addEndIndex(getOriginalIndex(i + 1, crlfPositions));
			} else {
				if (isSelfClosing) {
					({tagName, tagExp} = transformTagName(options.transformTagName, tagName, tagExp, options));
					const childNode = new XmlNode(tagName);
					if (prefixedAttrs) childNode[":@"] = prefixedAttrs;
					this.addChild(currentNode, childNode, this.readonlyMatcher, startIndex);
					if (options.captureMetaData) currentNode.addEndIndex(getOriginalIndex(closeIndex + 1, crlfPositions));
					this.matcher.pop();
					this.isCurrentNodeStopNode = false;
				} else if (options.unpairedTagsSet.has(tagName)) {
					const childNode = new XmlNode(tagName);
					if (prefixedAttrs) childNode[":@"] = prefixedAttrs;
					this.addChild(currentNode, childNode, this.readonlyMatcher, startIndex);
					if (options.captureMetaData) currentNode.addEndIndex(getOriginalIndex(result.closeIndex + 1, crlfPositions));
					this.matcher.pop();
					this.isCurrentNodeStopNode = false;
					i = result.closeIndex;
					continue;
				} else {
					const childNode = new XmlNode(tagName);
					if (this.tagsNodeStack.length > options.maxNestedTags) throw new Error("Maximum nested tags exceeded");
					this.tagsNodeStack.push(currentNode);
					if (prefixedAttrs) childNode[":@"] = prefixedAttrs;
					this.addChild(currentNode, childNode, this.readonlyMatcher, startIndex);
					currentNode = childNode;
				}
				textData = "";
				i = closeIndex;
			}
		}
	} else textData += xmlData[i];
	return xmlObj.child;
};
function getOriginalIndex(index, crlfPositions) {
	let low = 0;
	let high = crlfPositions.length;
	while (low < high) {
		const middle = Math.floor((low + high) / 2);
		if (crlfPositions[middle] < index) low = middle + 1;
		else high = middle;
	}
	return index + low;
}
function addChild(currentNode, childNode, matcher, startIndex) {
	if (!this.options.captureMetaData) startIndex = void 0;
	const jPathOrMatcher = this.options.jPath ? matcher.toString() : matcher;
	const result = this.options.updateTag(childNode.tagname, jPathOrMatcher, childNode[":@"]);
	if (result === false) {} else if (typeof result === "string") {
		childNode.tagname = result;
		currentNode.addChild(childNode, startIndex);
	} else currentNode.addChild(childNode, startIndex);
}
/**
* @param {object} val - Entity object with regex and val properties
* @param {string} tagName - Tag name
* @param {string|Matcher} jPath - jPath string or Matcher instance based on options.jPath
*/
function replaceEntitiesValue(val, tagName, jPath) {
	const entityConfig = this.options.processEntities;
	if (!entityConfig || !entityConfig.enabled) return val;
	if (entityConfig.allowedTags) {
		const jPathOrMatcher = this.options.jPath ? jPath.toString() : jPath;
		if (!(Array.isArray(entityConfig.allowedTags) ? entityConfig.allowedTags.includes(tagName) : entityConfig.allowedTags(tagName, jPathOrMatcher))) return val;
	}
	if (entityConfig.tagFilter) {
		const jPathOrMatcher = this.options.jPath ? jPath.toString() : jPath;
		if (!entityConfig.tagFilter(tagName, jPathOrMatcher)) return val;
	}
	return this.entityDecoder.decode(val);
}
function saveTextToParentTag(textData, parentNode, matcher, isLeafNode) {
	if (textData) {
		if (isLeafNode === void 0) isLeafNode = parentNode.child.length === 0;
		textData = this.parseTextData(textData, parentNode.tagname, matcher, false, parentNode[":@"] ? Object.keys(parentNode[":@"]).length !== 0 : false, isLeafNode);
		if (textData !== void 0 && textData !== "") parentNode.add(this.options.textNodeName, textData);
		textData = "";
	}
	return textData;
}
/**
* @param {Array<Expression>} stopNodeExpressions - Array of compiled Expression objects
* @param {Matcher} matcher - Current path matcher
*/
function isItStopNode() {
	if (this.stopNodeExpressionsSet.size === 0) return false;
	return this.matcher.matchesAny(this.stopNodeExpressionsSet);
}
/**
* Returns the tag Expression and where it is ending handling single-double quotes situation
* @param {string} xmlData 
* @param {number} i starting index
* @returns 
*/
function tagExpWithClosingIndex(xmlData, i, closingChar = ">") {
	const len = xmlData.length;
	const closeCode0 = closingChar.charCodeAt(0);
	const closeCode1 = closingChar.length > 1 ? closingChar.charCodeAt(1) : -1;
	let result = "";
	let segmentStart = i;
	for (let index = i; index < len; index++) {
		const code = xmlData.charCodeAt(index);
		if (code === 34 || code === 39) {
			index = xmlData.indexOf(xmlData[index], index + 1);
			if (index === -1) return;
		} else if (code === closeCode0) {
			if (closeCode1 !== -1) {
				if (xmlData.charCodeAt(index + 1) === closeCode1) {
					result += xmlData.substring(segmentStart, index);
					return {
						data: result,
						index
					};
				}
			} else {
				result += xmlData.substring(segmentStart, index);
				return {
					data: result,
					index
				};
			}
		} else if (code === 9) {
			result += xmlData.substring(segmentStart, index) + " ";
			segmentStart = index + 1;
		}
	}
}
function findClosingIndex(xmlData, str, i, errMsg) {
	const closingIndex = xmlData.indexOf(str, i);
	if (closingIndex === -1) throw new Error(errMsg);
	else return closingIndex + str.length - 1;
}
function findClosingChar(xmlData, char, i, errMsg) {
	const closingIndex = xmlData.indexOf(char, i);
	if (closingIndex === -1) throw new Error(errMsg);
	return closingIndex;
}
function readTagExp(xmlData, i, removeNSPrefix, closingChar = ">") {
	const result = tagExpWithClosingIndex(xmlData, i + 1, closingChar);
	if (!result) return;
	let tagExp = result.data;
	const closeIndex = result.index;
	const separatorIndex = tagExp.search(/\s/);
	let tagName = tagExp;
	let attrExpPresent = true;
	if (separatorIndex !== -1) {
		tagName = tagExp.substring(0, separatorIndex);
		tagExp = tagExp.substring(separatorIndex + 1).trimStart();
	}
	const rawTagName = tagName;
	if (removeNSPrefix) {
		const colonIndex = tagName.indexOf(":");
		if (colonIndex !== -1) {
			tagName = tagName.substr(colonIndex + 1);
			attrExpPresent = tagName !== result.data.substr(colonIndex + 1);
		}
	}
	return {
		tagName,
		tagExp,
		closeIndex,
		attrExpPresent,
		rawTagName
	};
}
/**
* find paired tag for a stop node
* @param {string} xmlData 
* @param {string} tagName 
* @param {number} i 
*/
function readStopNodeData(xmlData, tagName, i) {
	const startIndex = i;
	let openTagCount = 1;
	let lenient = false;
	let nextGt = -1;
	const xmllen = xmlData.length;
	for (; i < xmllen; i++) if (xmlData[i] === "<") {
		const c1 = xmlData.charCodeAt(i + 1);
		if (c1 === 47) {
			const closeIndex = findClosingChar(xmlData, ">", i, `${tagName} is not closed`);
			if (xmlData.substring(i + 2, closeIndex).trim() === tagName) {
				openTagCount--;
				if (openTagCount === 0) return {
					tagContent: xmlData.substring(startIndex, i),
					i: closeIndex
				};
			}
			i = closeIndex;
		} else if (c1 === 63) i = findClosingIndex(xmlData, "?>", i + 1, "StopNode is not closed.");
		else if (c1 === 33 && xmlData.charCodeAt(i + 2) === 45 && xmlData.charCodeAt(i + 3) === 45) i = findClosingIndex(xmlData, "-->", i + 3, "StopNode is not closed.");
		else if (c1 === 33 && xmlData.charCodeAt(i + 2) === 91) i = findClosingIndex(xmlData, "]]>", i, "StopNode is not closed.") - 2;
		else {
			const tagData = lenient ? void 0 : readTagExp(xmlData, i, false);
			if (tagData) {
				if (tagData.tagName === tagName && tagData.tagExp[tagData.tagExp.length - 1] !== "/") openTagCount++;
				i = tagData.closeIndex;
			} else {
				lenient = true;
				if (nextGt < i) {
					nextGt = xmlData.indexOf(">", i);
					if (nextGt === -1) return;
				}
				const nextLt = xmlData.indexOf("<", i + 1);
				if (nextLt === -1 || nextLt > nextGt) {
					const exp = xmlData.substring(i + 1, nextGt);
					const sep = exp.search(/\s/);
					if ((sep === -1 ? exp : exp.substring(0, sep)) === tagName && exp[exp.length - 1] !== "/") openTagCount++;
					i = nextGt;
				}
			}
		}
	}
}
function parseValue(val, shouldParse, options) {
	if (shouldParse && typeof val === "string") {
		const newval = val.trim();
		if (newval === "true") return true;
		else if (newval === "false") return false;
		else return toNumber(val, options);
	} else if (isExist(val)) return val;
	else return "";
}
function transformTagName(fn, tagName, tagExp, options) {
	if (fn) {
		const newTagName = fn(tagName);
		if (tagExp === tagName) tagExp = newTagName;
		tagName = newTagName;
	}
	tagName = sanitizeName(tagName, options);
	return {
		tagName,
		tagExp
	};
}
function sanitizeName(name, options) {
	if (criticalProperties.includes(name)) throw new Error(`[SECURITY] Invalid name: "${name}" is a reserved JavaScript keyword that could cause prototype pollution`);
	else if (DANGEROUS_PROPERTY_NAMES.includes(name)) return options.onDangerousProperty(name);
	return name;
}
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/node2json.js
var METADATA_SYMBOL = XmlNode.getMetaDataSymbol();
/**
* Helper function to strip attribute prefix from attribute map
* @param {object} attrs - Attributes with prefix (e.g., {"@_class": "code"})
* @param {string} prefix - Attribute prefix to remove (e.g., "@_")
* @returns {object} Attributes without prefix (e.g., {"class": "code"})
*/
function stripAttributePrefix(attrs, prefix) {
	if (!attrs || typeof attrs !== "object") return {};
	if (!prefix) return attrs;
	const rawAttrs = {};
	for (const key in attrs) if (key.startsWith(prefix)) {
		const rawName = key.substring(prefix.length);
		rawAttrs[rawName] = attrs[key];
	} else rawAttrs[key] = attrs[key];
	return rawAttrs;
}
/**
* 
* @param {array} node 
* @param {any} options 
* @param {Matcher} matcher - Path matcher instance
* @returns 
*/
function prettify(node, options, matcher, readonlyMatcher) {
	return compress$1(node, options, matcher, readonlyMatcher);
}
/**
* @param {array} arr 
* @param {object} options 
* @param {Matcher} matcher - Path matcher instance
* @returns object
*/
function compress$1(arr, options, matcher, readonlyMatcher) {
	let text;
	const compressedObj = {};
	for (let i = 0; i < arr.length; i++) {
		const tagObj = arr[i];
		const property = propName(tagObj);
		if (property !== void 0 && property !== options.textNodeName) {
			const rawAttrs = stripAttributePrefix(tagObj[":@"] || {}, options.attributeNamePrefix);
			matcher.push(property, rawAttrs);
		}
		if (property === options.textNodeName) {
			if (text === void 0) text = tagObj[property];
			else text += "" + tagObj[property];
		} else if (property === void 0) continue;
		else if (tagObj[property]) {
			let val = compress$1(tagObj[property], options, matcher, readonlyMatcher);
			const isLeaf = isLeafTag(val, options);
			if (Object.keys(val).length === 0 && options.alwaysCreateTextNode) val[options.textNodeName] = "";
			if (tagObj[":@"]) assignAttributes(val, tagObj[":@"], readonlyMatcher, options);
			else if (Object.keys(val).length === 1 && val[options.textNodeName] !== void 0 && !options.alwaysCreateTextNode) val = val[options.textNodeName];
			else if (Object.keys(val).length === 0) {
				if (options.alwaysCreateTextNode) val[options.textNodeName] = "";
				else val = "";
			}
			if (tagObj[METADATA_SYMBOL] !== void 0 && typeof val === "object" && val !== null) val[METADATA_SYMBOL] = tagObj[METADATA_SYMBOL];
			if (compressedObj[property] !== void 0 && Object.prototype.hasOwnProperty.call(compressedObj, property)) {
				if (!Array.isArray(compressedObj[property])) compressedObj[property] = [compressedObj[property]];
				compressedObj[property].push(val);
			} else {
				const jPathOrMatcher = options.jPath ? readonlyMatcher.toString() : readonlyMatcher;
				if (options.isArray(property, jPathOrMatcher, isLeaf)) compressedObj[property] = [val];
				else compressedObj[property] = val;
			}
			if (property !== void 0 && property !== options.textNodeName) matcher.pop();
		}
	}
	if (typeof text === "string") {
		if (text.length > 0) compressedObj[options.textNodeName] = text;
	} else if (text !== void 0) compressedObj[options.textNodeName] = text;
	return compressedObj;
}
function propName(obj) {
	const keys = Object.keys(obj);
	for (let i = 0; i < keys.length; i++) {
		const key = keys[i];
		if (key !== ":@") return key;
	}
}
function assignAttributes(obj, attrMap, readonlyMatcher, options) {
	if (attrMap) {
		const keys = Object.keys(attrMap);
		const len = keys.length;
		for (let i = 0; i < len; i++) {
			const atrrName = keys[i];
			const rawAttrName = atrrName.startsWith(options.attributeNamePrefix) ? atrrName.substring(options.attributeNamePrefix.length) : atrrName;
			const jPathOrMatcher = options.jPath ? readonlyMatcher.toString() + "." + rawAttrName : readonlyMatcher;
			if (options.isArray(atrrName, jPathOrMatcher, true, true)) obj[atrrName] = [attrMap[atrrName]];
			else obj[atrrName] = attrMap[atrrName];
		}
	}
}
function isLeafTag(obj, options) {
	const { textNodeName } = options;
	const propCount = Object.keys(obj).length;
	if (propCount === 0) return true;
	if (propCount === 1 && (obj[textNodeName] || typeof obj[textNodeName] === "boolean" || obj[textNodeName] === 0)) return true;
	return false;
}
// ../../work/wt-reader/node_modules/fast-xml-parser/src/xmlparser/XMLParser.js
var XMLParser = class {
	constructor(options) {
		this.externalEntities = {};
		this.options = buildOptions(options);
	}
	/**
	* Parse XML dats to JS object 
	* @param {string|Uint8Array} xmlData 
	* @param {boolean|Object} validationOption 
	*/
	parse(xmlData, validationOption) {
		if (typeof xmlData !== "string" && xmlData.toString) {
			if (xmlData instanceof Uint8Array && !(typeof Buffer !== "undefined" && Buffer.isBuffer(xmlData))) xmlData = new TextDecoder("utf-8", { ignoreBOM: true }).decode(xmlData);
			else xmlData = xmlData.toString();
		} else if (typeof xmlData !== "string") throw new Error("XML data is accepted in String or Bytes[] form.");
		if (validationOption) {
			if (validationOption === true) validationOption = {};
			const result = validate(xmlData, validationOption);
			if (result !== true) throw Error(`${result.err.msg}:${result.err.line}:${result.err.col}`);
		}
		const orderedObjParser = new OrderedObjParser(this.options, this.externalEntities);
		const orderedResult = orderedObjParser.parseXml(xmlData);
		if (this.options.preserveOrder || orderedResult === void 0) return orderedResult;
		else return prettify(orderedResult, this.options, orderedObjParser.matcher, orderedObjParser.readonlyMatcher);
	}
	/**
	* Add Entity which is not by default supported by this library
	* @param {string} key 
	* @param {string} value 
	*/
	addEntity(key, value) {
		if (value.indexOf("&") !== -1) throw new Error("Entity value can't have '&'");
		else if (key.indexOf("&") !== -1 || key.indexOf(";") !== -1) throw new Error("An entity must be set without '&' and ';'. Eg. use '#xD' for '&#xD;'");
		else if (value === "&") throw new Error("An entity with value '&' is not permitted");
		else this.externalEntities[key] = value;
	}
	/**
	* Returns a Symbol that can be used to access the metadata
	* property on a node.
	* 
	* If Symbol is not available in the environment, an ordinary property is used
	* and the name of the property is here returned.
	* 
	* The XMLMetaData property is only present when `captureMetaData`
	* is true in the options.
	*/
	static getMetaDataSymbol() {
		return XmlNode.getMetaDataSymbol();
	}
};
// ../../work/wt-reader/src/readers/time.ts
var MONTHS = [
	"jan",
	"feb",
	"mar",
	"apr",
	"may",
	"jun",
	"jul",
	"aug",
	"sep",
	"oct",
	"nov",
	"dec"
];
/**
* A date with its time of day, wherever in the text they stand.
*
* @param order without it a date such as `05/03/2024` is told only where one of its numbers is
*   above 12
* @param zone seconds east of Greenwich to take where the text states no zone
* @returns null where there is no date or time, or where day and month cannot be told apart
*/
function parseMoment(text, order, zone) {
	const parts = localParts(text, order);
	if (parts === null) return null;
	const offset = parts.offset ?? zone ?? null;
	return {
		seconds: parts.local - (offset ?? 0),
		zoneStated: offset !== null
	};
}
/** Seconds east of Greenwich that a date with its time states, or null. */
function statedZone(text, order) {
	return localParts(text, order)?.offset ?? null;
}
/** A longer text is no date: looking for one in it would take long. Characters. */
var LONGEST = 200;
/** Seconds since 1970 by the clock on the wall, and that clock's zone where it is stated. */
function localParts(text, order) {
	if (text.length > LONGEST) return null;
	const clock = /(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*([ap]\.?m\.?)?/iu.exec(text);
	const compact = /\b\d{8}T(\d{2})(\d{2})(\d{2})?/.exec(text);
	const day = parseDay(text, order);
	if (day === null || clock === null && compact === null) return null;
	const found = clock ?? compact ?? [];
	let hour = Number(found[1]);
	const minute = Number(found[2]);
	const second = Number((found[3] ?? "0").replace(",", "."));
	const half = clock?.[4]?.toLowerCase()[0];
	if (half !== void 0) {
		if (hour < 1 || hour > 12) return null;
		hour = hour % 12 + (half === "p" ? 12 : 0);
	}
	if (hour > 23 || minute > 59 || second >= 61) return null;
	const rest = text.slice((clock?.index ?? compact?.index ?? 0) + (found[0]?.length ?? 0));
	return {
		local: day / 1e3 + hour * 3600 + minute * 60 + second,
		offset: zoneOffset(rest)
	};
}
/** Seconds east of Greenwich that a text begins with, or null. */
function zoneOffset(rest) {
	if (/^\s*(z|utc|gmt)\b(?!\s*[+-−])/iu.test(rest)) return 0;
	const match = /^\s*(?:utc|gmt)?\s*([+\-−])(\d{1,2})(?::?(\d{2}))?\b/iu.exec(rest);
	if (match === null) return null;
	const size = Number(match[2]) * 3600 + Number(match[3] ?? 0) * 60;
	return size > 50400 ? null : match[1] === "+" ? size : -size;
}
/** Midnight of a date in milliseconds since 1970, as though in UTC. */
function parseDay(text, order) {
	const iso = /(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})/.exec(text) ?? /\b(\d{4})(\d{2})(\d{2})(?=T|\b)/.exec(text);
	if (iso !== null) return utcDay(Number(iso[1]), Number(iso[2]), Number(iso[3]));
	const named = /(\d{1,2})[-\s.]*(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\p{L}*[-\s.,]*(\d{4})/iu.exec(text);
	if (named !== null) return utcDay(Number(named[3]), monthOf(named[2]), Number(named[1]));
	const american = /(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\p{L}*\.?\s+(\d{1,2})\b(?!:).*?(\d{4})/iu.exec(text);
	if (american !== null) return utcDay(Number(american[3]), monthOf(american[1]), Number(american[2]));
	const parts = /(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})/.exec(text);
	if (parts === null) return null;
	const [first, second, year] = [
		Number(parts[1]),
		Number(parts[2]),
		Number(parts[3])
	];
	if (first > 12 || parts[0].includes(".") || first === second || order === "day first") return utcDay(year, second, first);
	return second > 12 || order === "month first" ? utcDay(year, first, second) : null;
}
function monthOf(name) {
	return MONTHS.indexOf(name.toLowerCase()) + 1;
}
function utcDay(year, month, day) {
	const time = Date.UTC(year, month - 1, day);
	const date = new Date(time);
	return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? time : null;
}
// ../../work/wt-reader/src/readers/gpx.ts
/** Reads GPX 1.1 (Topografix schema): tracks by time, and waypoints as a table. */
/** GPX nests seven deep; extensions add a few. */
var DEEPEST = 40;
var MOST_BYTES$2 = 2e8;
/** Reads a GPX text. Document types and entities are refused: GPX has no use for them. */
function readGpx(file, text) {
	const unsafe = whyUnsafe(text);
	if (unsafe !== null) return leftOut(file.path, null, unsafe, "export the track again");
	const breakAt = whereItBreaksOff(text);
	let root;
	try {
		root = asNode(parser().parse(text.slice(0, breakAt ?? text.length)));
	} catch (error) {
		const why = error instanceof Error ? error.message : String(error);
		return leftOut(file.path, null, `no well-formed XML: ${why}`, "export the track again");
	}
	if (root.gpx === void 0) return leftOut(file.path, null, "XML, but not GPX", "export as GPX 1.1");
	const gpx = asNode(root.gpx);
	const problems = [];
	if (breakAt !== null) problems.push(brokenOff(file.path));
	const tracks = listOf(gpx.trk).flatMap((track) => readSegments(file.path, asNode(track), problems));
	const waypoints = listOf(gpx.wpt).map(asNode);
	const tables = waypoints.length > 0 ? [waypointTable(file.path, waypoints, text)] : [];
	if (tracks.length === 0 && tables.length === 0 && problems.length === 0) return leftOut(file.path, null, "GPX without a track that has times, and without waypoints", "export the track log, not the route");
	return {
		...nothingIn(tracks.length > 0 ? "track" : tables.length > 0 ? "table" : "unknown", problems),
		tracks,
		tables
	};
}
function parser() {
	return new XMLParser({
		ignoreAttributes: false,
		attributeNamePrefix: "@",
		parseTagValue: false,
		parseAttributeValue: false,
		processEntities: false,
		removeNSPrefix: true,
		trimValues: true
	});
}
function whyUnsafe(text) {
	if (text.length > MOST_BYTES$2) return "a GPX file of over 200 MB";
	if (/<!(DOCTYPE|ENTITY)/iu.test(text)) return "XML with a document type or entities, which GPX never has";
	let depth = 0;
	for (const match of text.matchAll(/<(\/?)[A-Za-z_][^<>]*?(\/?)>/g)) if (match[1] === "/") depth--;
	else if (match[2] !== "/" && ++depth > DEEPEST) return `XML nested deeper than ${DEEPEST}`;
	return null;
}
var END_OF_GPX = /<\/(?:[^\s<>:/]{1,100}:)?gpx\s*>/u;
var END_OF_POINT = /<\/(?:[^\s<>:/]{1,100}:)?(?:trkpt|wpt)\s*>/gu;
/**
* The end of the last whole point where a text breaks off, as it does when a battery runs out;
* null where it has its end, or no point.
*/
function whereItBreaksOff(text) {
	if (END_OF_GPX.test(text)) return null;
	let end = null;
	for (const { index, 0: tag } of text.matchAll(END_OF_POINT)) end = index + tag.length;
	return end;
}
function brokenOff(file) {
	return {
		file,
		line: null,
		problem: "GPX without its end: the file breaks off",
		done: "the points before the break are used; copy it again if there should be more"
	};
}
function readSegments(file, track, problems) {
	const name = textOf(track.name) ?? stemOf(file);
	return listOf(track.trkseg).flatMap((segment) => {
		const made = readSegment(file, name, listOf(asNode(segment).trkpt).map(asNode), problems);
		return made === null ? [] : [made];
	});
}
/** One unbroken stretch of a track, so that nothing is interpolated over its breaks. */
function readSegment(file, name, points, problems) {
	const timed = points.map((point) => ({
		time: parseMoment(textOf(point.time) ?? "")?.seconds ?? NaN,
		longitude: decimal(point["@lon"]),
		latitude: decimal(point["@lat"]),
		elevation: decimal(point.ele)
	})).filter(({ longitude, latitude }) => Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90).filter(({ time }) => !Number.isNaN(time)).sort((a, b) => a.time - b.time);
	const kept = timed.filter(({ time }, i) => i === 0 || time > timed[i - 1].time);
	const lost = points.length - timed.length;
	if (lost > 0) problems.push({
		file,
		line: null,
		problem: `${lost} of ${points.length} fixes of the track ${name} have no time or no position`,
		done: "those fixes were left out; scans are placed by the others"
	});
	if (kept.length === 0) return null;
	return {
		file,
		name,
		times: Float64Array.from(kept, (fix) => fix.time),
		longitudes: Float64Array.from(kept, (fix) => fix.longitude),
		latitudes: Float64Array.from(kept, (fix) => fix.latitude),
		elevations: Float64Array.from(kept, (fix) => fix.elevation)
	};
}
var WAYPOINT_HEADER = [
	"name",
	"latitude",
	"longitude",
	"elevation",
	"time",
	"comment",
	"description"
];
function waypointTable(file, waypoints, text) {
	const rows = waypoints.map((point) => [
		point.name,
		point["@lat"],
		point["@lon"],
		point.ele,
		point.time,
		point.cmt,
		point.desc
	].map((value) => textOf(value) ?? ""));
	return {
		file,
		header: WAYPOINT_HEADER,
		rows,
		lines: waypointLines(text, rows.length)
	};
}
/** A line's end, or the beginning of a waypoint under whatever prefix its namespace has. */
var LINE_OR_WAYPOINT = /\n|<(?:[^\s<>:/]{1,100}:)?wpt(?=[\s/>])/gu;
/** The 1-based lines on which the first waypoints begin. */
function waypointLines(text, count) {
	const lines = [];
	let line = 1;
	for (const [found] of text.matchAll(LINE_OR_WAYPOINT)) if (found === "\n") line++;
	else if (lines.push(line) === count) break;
	while (lines.length < count) lines.push(line);
	return lines;
}
function asNode(value) {
	return typeof value === "object" && value !== null ? value : {};
}
function listOf(value) {
	if (value === void 0 || value === "") return [];
	return Array.isArray(value) ? value : [value];
}
var ENTITIES = {
	amp: "&",
	lt: "<",
	gt: ">",
	quot: "\"",
	apos: "'"
};
/** An element's text with XML's five own entities and character numbers put back. */
function textOf(value) {
	const text = typeof value === "object" && value !== null ? asNode(value)["#text"] : value;
	if (typeof text !== "string" || text.trim() === "") return null;
	return text.replace(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(amp|lt|gt|quot|apos));/giu, (all, ten, hex, word) => {
		if (word !== void 0) return ENTITIES[String(word).toLowerCase()];
		const code = ten === void 0 ? parseInt(String(hex), 16) : Number(ten);
		return code > 0 && code <= 1114111 ? String.fromCodePoint(code) : String(all);
	}).trim().normalize("NFC");
}
function decimal(value) {
	const text = textOf(value);
	return text === null ? NaN : Number(text);
}
// ../../work/wt-reader/src/readers/jcamp-ordinates.ts
var SQUEEZED = "@ABCDEFGHI";
var SQUEEZED_MINUS = "_abcdefghi";
var DIFFERENCE = "%JKLMNOPQR";
var DIFFERENCE_MINUS = "_jklmnopqr";
var DUPLICATE = "_STUVWXYZs";
/** One alone matches each run of blanks, so that a line of nothing else is passed over once. */
var TOKEN = /\s*(?:[,;]\s*)?(?:([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]\d{1,3})?)|([@A-Ia-i])(\d*(?:\.\d+)?)|([%J-Rj-r])(\d*(?:\.\d+)?)|([S-Zs])(\d*)|(\?))/uy;
/** More ordinates than any line holds: a duplicate count that leads beyond is damage. */
var MOST_IN_LINE = 1e5;
/**
* Decodes one line: its abscissa, then ordinates.
*
* @returns a sentence that says what could not be read
*/
function decodeOrdinates(line) {
	const ordinates = [];
	let x = NaN;
	let value = NaN;
	let difference = null;
	TOKEN.lastIndex = 0;
	const text = line.trimEnd();
	while (TOKEN.lastIndex < text.length) {
		const at = TOKEN.lastIndex;
		const match = TOKEN.exec(text);
		if (match === null) return `“${text.slice(at, at + 12).trim()}” is no ordinate`;
		if (Number.isNaN(x)) {
			if (match[1] === void 0) return "the line does not begin with its abscissa";
			x = Number(match[1]);
			continue;
		}
		if (match[6] !== void 0) {
			const times = Number(`${DUPLICATE.indexOf(match[6])}${match[7]}`);
			if (ordinates.length === 0) return "a duplicate count with nothing before it";
			if (ordinates.length + times > MOST_IN_LINE) return `a duplicate count of ${times}`;
			for (let i = 1; i < times; i++) {
				if (difference !== null) value += difference;
				ordinates.push(value);
			}
			continue;
		}
		if (match[4] !== void 0) {
			difference = signed(match[4], match[5], DIFFERENCE, DIFFERENCE_MINUS);
			if (ordinates.length === 0) return "a difference with nothing before it";
			value += difference;
		} else {
			difference = null;
			if (match[8] !== void 0) value = NaN;
			else if (match[2] !== void 0) value = signed(match[2], match[3], SQUEEZED, SQUEEZED_MINUS);
			else value = Number(match[1]);
		}
		if (ordinates.length >= MOST_IN_LINE) return `over ${MOST_IN_LINE} ordinates in a line`;
		ordinates.push(value);
	}
	return {
		x,
		ordinates,
		endsInDifference: difference !== null
	};
}
function signed(first, rest, plus, minus) {
	const digit = plus.indexOf(first);
	return digit >= 0 ? Number(`${digit}${rest}`) : -Number(`${minus.indexOf(first)}${rest}`);
}
// ../../work/wt-reader/src/readers/headings.ts
/** What a column's heading says of it: English words as instruments and hands commonly write them. */
/** A heading as words: lower case, units in brackets dropped, signs and joined capitals parted. */
var headingWords = remembering((heading) => allWords(heading.replace(/\([^)]*\)|\[[^\]]*\]/g, " ")));
/** The same with what stands in brackets, where `radiance (reference)` says the most. */
var allWords = remembering((heading) => heading.replace(/[()[\]]/g, " ").replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2").replace(/[_\-.:/#*"]+/g, " ").toLowerCase().replace(/\s+/g, " ").trim());
/** Whether a heading names the wavelength (or wavenumber) axis. */
function isWavelengthHeading(heading) {
	const words = headingWords(heading);
	if (/^(wave ?lengths?|wave ?numbers?|wavel|wvl|wvls|wl|lambda|λ|microns?|band cent(er|re)s?)\b/u.test(words)) return true;
	return /^λ|^(nm|µm|μm|um|cm 1|cm⁻¹|nanomet(er|re)s|micromet(er|re)s)$/u.test(words);
}
/** Whether a heading names reflectance, as computed by the instrument. */
function isReflectanceHeading(heading) {
	return /refl(?!ected radiance)|(tgt|target|sample)\W*\/\W*(ref|panel|white)|\bratio\b|^%\s*r\b|^%$|albedo/iu.test(heading);
}
/** Whether a heading names the white panel's signal. */
function isPanelHeading(heading) {
	return !isReflectanceHeading(heading) && /\b(ref|reference|panel|white)\b/u.test(allWords(heading));
}
/** Whether a heading names the signal of the spot that was measured. */
function isSpotHeading(heading) {
	return !isReflectanceHeading(heading) && /\b(target|tgt|spot|sample|rock)\b/u.test(allWords(heading));
}
/** Whether a heading names the dark signal. */
function isDarkHeading(heading) {
	return /\bdark\b/u.test(allWords(heading));
}
/** Whether a heading names a spread or an error, which is no scan. */
function isSpreadHeading(heading) {
	return /\b(std|stdev|sd|s d|standard deviation|sigma|error|err|uncertainty|variance|noise)\b/u.test(allWords(heading));
}
/** Whether a heading numbers the channels. */
function isChannelHeading(heading) {
	return /^(chan(nel)?s?|pixels?|index|row|no|nr|n|band)( no| nr| number)?$/u.test(headingWords(heading));
}
/** Whether a heading belongs to a table of samples, holes or places rather than to spectra. */
function isPlaceHeading(heading) {
	return PLACE_WORDS.test(headingWords(heading));
}
var PLACE_WORDS = /^(sample|station|site|spot|name|id|label|fid|oid|hole|bhid|dhid|collar|depth|from|to|x|y|z|east|easting|eastings|north|northing|northings|utm ?[exny]|lat|latitude|lon|long|lng|longitude|elev|elevation|altitude|height|rl|date|time|azimuth|azi|bearing|dip|inclination|plunge|crs|datum|lithology|rock|support|target|comment|notes?)( id| no| nr| number| name| m| ft| deg)?$/u;
// ../../work/wt-reader/src/readers/look.ts
/** By what files of one instrument and export are known: its layout, never its values or its name. */
/** Longer lists of columns are cut: nobody chooses among so many. */
var MOST_COLUMNS = 60;
var LONGEST_LIKE = 400;
/** A look without a choice of columns. `parts` are joined as they stand. */
function lookOf(parts, columns = []) {
	return {
		like: parts.filter((part) => part !== "").join("; ").slice(0, LONGEST_LIKE),
		columns: columns.slice(0, MOST_COLUMNS)
	};
}
/** An axis as its file writes it: how many channels, from where to where. */
function axisWords(axis) {
	if (axis.length === 0) return "no channels";
	return `${axis.length} from ${short(axis[0])} to ${short(axis[axis.length - 1])}`;
}
/**
* Headings without what differs from scan to scan: numbers become `#`, and a heading that names no
* part of a table becomes `*`, for it may be the scan's name.
*/
function headingPattern(headings) {
	if (headings === null) return "";
	const parts = headings.map((heading) => KNOWN.some((is) => is(heading)) ? heading.replace(/\d+/g, "#") : "*");
	return parts.filter((part, i) => i === 0 || part !== parts[i - 1]).join(" | ");
}
var KNOWN = [
	isWavelengthHeading,
	isReflectanceHeading,
	isPanelHeading,
	isSpotHeading,
	isDarkHeading,
	isSpreadHeading,
	isChannelHeading
];
/** Each column's heading, or `column n` where it has none or shares it with one before it. */
function columnNames(headings, columns) {
	const names = [];
	for (let column = 0; column < columns; column++) {
		const heading = headings?.[column] ?? "";
		const isOwn = heading !== "" && !names.includes(heading);
		names.push(isOwn ? heading : `column ${column + 1}`);
	}
	return names;
}
// ../../work/wt-reader/src/readers/metadata.ts
/** Header lines kept whole as keys and values. */
/** A separator that has a letter before it and no `//` after it (so that addresses stay whole). */
var PAIR = /^([^:=\t]{1,80}?)\s*(?::(?!\/\/)|=|\t)\s*(.*)$/su;
var COMMENT_SIGN = /^\s*(?:##?|%|\/\/|;|!|')\s*/;
/**
* One header line as a key and its value: `key: value`, `key = value`, `key<TAB>value`, or two
* cells of a comma or semicolon table. Comment signs before the key are dropped.
*
* @returns null where the line is neither
*/
function pairOf(line, delimiter) {
	const text = line.replace(COMMENT_SIGN, "").trim();
	if (delimiter !== void 0) {
		const parts = text.split(delimiter).map(unquoted);
		while (parts.length > 2 && parts[parts.length - 1] === "") parts.pop();
		if (parts.length === 2 && /\p{L}/u.test(parts[0])) return [parts[0].replace(/\s*[:=]$/, ""), parts[1]];
	}
	const match = PAIR.exec(text);
	if (match === null || !/\p{L}/u.test(match[1])) return null;
	return [unquoted(match[1]), unquoted(match[2].replace(/^[\t]+/, ""))];
}
function unquoted(text) {
	const plain = text.trim();
	return plain.length > 1 && plain.startsWith("\"") && plain.endsWith("\"") ? plain.slice(1, -1).replaceAll("\"\"", "\"").trim() : plain;
}
/** Collects metadata; a key that comes again gets ` 2`, so that nothing written is lost. */
var MetadataCollector = class {
	pairs = /* @__PURE__ */ new Map();
	/** How often each key came. */
	times = /* @__PURE__ */ new Map();
	add(key, value) {
		const plain = key.trim().normalize("NFC");
		if (plain === "" || value === "") return;
		let name = plain;
		let again = this.times.get(plain) ?? 1;
		if (this.pairs.get(again === 1 ? plain : `${plain} ${again}`) === value) return;
		while (this.pairs.has(name)) name = `${plain} ${++again}`;
		this.times.set(plain, again);
		this.pairs.set(name, value.trim().normalize("NFC"));
	}
	/** A header line: a pair, or free text under `title` or `note`. */
	addLine(line, delimiter) {
		const pair = pairOf(line, delimiter);
		if (pair !== null) this.add(pair[0], pair[1]);
		else {
			const text = line.replace(COMMENT_SIGN, "").trim();
			if (text !== "") this.add(this.pairs.has("title") ? "note" : "title", text);
		}
	}
	/** All pairs in the order that they were found, as a plain object without a prototype's keys. */
	record() {
		return Object.fromEntries(this.pairs);
	}
};
// ../../work/wt-reader/src/readers/jcamp.ts
/** Reads JCAMP-DX 4.24 (McDonald and Wilks 1988, Appl. Spectrosc. 42, 151): XYDATA and XYPOINTS. */
/** Something wrong at a line; ends the reading of a block. */
var Fault = class extends Error {
	line;
	advice;
	constructor(line, message, advice = "export it again") {
		super(message);
		this.line = line;
		this.advice = advice;
	}
};
var DATA_LABELS = /* @__PURE__ */ new Set([
	"XYDATA",
	"XYPOINTS",
	"PEAKTABLE",
	"NTUPLES",
	"DATATABLE",
	"PAGE"
]);
var MOST_BLOCKS$1 = 1e4;
/** Reads all blocks of a file; each with data is a scan. */
function readJcamp(text) {
	const blocks = splitBlocks(new TextDecoder().decode(text.bytes));
	if ("tooManyFrom" in blocks) {
		const problem = `JCAMP-DX of more than ${MOST_BLOCKS$1} blocks`;
		const advice = `split it into files of at most ${MOST_BLOCKS$1} scans`;
		return leftOut(text.file, blocks.tooManyFrom, problem, advice);
	}
	const scans = [];
	const problems = [];
	let layout = null;
	let look;
	for (const block of blocks) {
		if (!block.records.some((record) => DATA_LABELS.has(record.label))) continue;
		const result = readBlock(text, block);
		scans.push(...result.scans);
		problems.push(...result.problems);
		layout ??= result.layout;
		look ??= result.look;
	}
	if (scans.length === 0 && problems.length === 0) return leftOut(text.file, null, "JCAMP-DX without XYDATA", "export the scan with its values");
	return {
		kind: scans.length > 0 ? "scans" : "unknown",
		scans,
		tables: [],
		tracks: [],
		layout,
		look,
		problems
	};
}
/**
* Blocks run from `##TITLE=` to `##END=`; a linked file holds blocks in a block.
*
* @returns the line of the first block too many where there are more than are read
*/
function splitBlocks(text) {
	const blocks = [];
	const open = [];
	let record = null;
	for (const [index, whole] of text.split(/\r\n|\n|\r/).entries()) {
		const comment = whole.indexOf("$$");
		const line = comment >= 0 ? whole.slice(0, comment) : whole;
		const match = /^\s*##([^=]*)=(.*)$/u.exec(line);
		if (match === null) {
			if (record !== null && line.trim() !== "") record.lines.push(line);
			continue;
		}
		const label = match[1].toUpperCase().replace(/[\s\-/_]/g, "");
		record = {
			label,
			written: match[1].trim(),
			lines: [match[2]],
			line: index + 1
		};
		if (label === "TITLE") {
			if (blocks.length === MOST_BLOCKS$1) return { tooManyFrom: index + 1 };
			const block = {
				records: [],
				closed: false
			};
			blocks.push(block);
			open.push(block);
		}
		if (label === "END") {
			const block = open.pop();
			if (block !== void 0) block.closed = true;
			record = null;
		} else if (label !== "") open[open.length - 1]?.records.push(record);
	}
	return blocks;
}
function readBlock(text, block) {
	try {
		return assembleBlock(text, block);
	} catch (error) {
		if (error instanceof Fault) return leftOut(text.file, error.line, error.message, error.advice);
		throw error;
	}
}
function assembleBlock(text, block) {
	const find = (label) => block.records.find((record) => record.label === label);
	const tuples = find("NTUPLES") ?? find("PAGE");
	if (tuples !== void 0 || /ntuples/iu.test(find("DATACLASS")?.lines[0] ?? "")) throw new Fault(tuples?.line ?? null, "JCAMP-DX NTUPLES, which is not read", "export it as XYDATA");
	refuseOtherOrdinates(find("YUNITS"));
	const points = readPoints(find);
	if (!block.closed) throw new Fault(null, "JCAMP-DX without its ##END=: the file breaks off", "copy it again");
	const title = find("TITLE")?.lines[0].trim() ?? "";
	const look = lookOf([
		"JCAMP-DX",
		...[find("XUNITS")?.lines[0].trim() ?? "", find("YUNITS")?.lines[0].trim() ?? ""],
		axisWords(points.x)
	]);
	return {
		...assemble({
			file: text.file,
			axis: points.x,
			lineOf: (point) => `line ${points.lines[point]}`,
			lineNumber: (point) => points.lines[point] ?? null,
			scans: [{
				name: title === "" ? stemOf(text.file) : title.normalize("NFC"),
				values: points.y,
				metadata: metadataOf(block),
				line: points.lines[0] ?? null
			}],
			wavelengthHint: find("XUNITS")?.lines[0] ?? "",
			reflectanceHint: find("YUNITS")?.lines[0] ?? "",
			layout: {
				name: "JCAMP-DX",
				decimal: ".",
				encoding: text.encoding
			}
		}, text.overrides),
		look
	};
}
function refuseOtherOrdinates(units) {
	const written = units?.lines[0].trim() ?? "";
	if (!/absorb|transmi|kubelka|log|emiss|raman|counts|radiance/iu.test(written)) return;
	throw new Fault(units?.line ?? null, `ordinates in ${quoted(written)}`, "export reflectance");
}
function metadataOf(block) {
	const metadata = new MetadataCollector();
	for (const { label, written, lines } of block.records) if (!DATA_LABELS.has(label)) metadata.add(written, lines.map((line) => line.trim()).join(" ").trim());
	return metadata.record();
}
function numberIn(find, label, otherwise) {
	const record = find(label);
	const value = Number(record?.lines[0].trim() || NaN);
	if (Number.isFinite(value)) return value;
	if (record === void 0 && otherwise !== void 0) return otherwise;
	const missing = record === void 0 ? "is missing" : `is ${quoted(record.lines[0].trim())}`;
	throw new Fault(record?.line ?? null, `##${label}= ${missing}, where a number should be`);
}
function readPoints(find) {
	const data = find("XYDATA");
	if (data !== void 0) return readXyData(find, data);
	const pairs = find("XYPOINTS");
	if (pairs !== void 0) return readXyPoints(find, pairs);
	throw new Fault(null, "JCAMP-DX with peaks alone and no XYDATA", "export the whole scan");
}
/** `(X++(Y..Y))`: ordinates at equal steps, with every check that the form has. */
function readXyData(find, data) {
	if (!/\(X\+\+\(Y\.\.Y\)\)/iu.test(data.lines[0].replace(/\s/g, ""))) throw new Fault(data.line, `XYDATA of the form ${quoted(data.lines[0].trim())}`, "export (X++(Y..Y))");
	const count = numberIn(find, "NPOINTS");
	const first = numberIn(find, "FIRSTX");
	const step = count > 1 ? (numberIn(find, "LASTX") - first) / (count - 1) : 0;
	const xFactor = numberIn(find, "XFACTOR", 1);
	const yFactor = numberIn(find, "YFACTOR", 1);
	const ordinates = [];
	const lines = [];
	let repeats = false;
	data.lines.slice(1).forEach((text, index) => {
		const line = data.line + index + 1;
		const decoded = decodeOrdinates(text);
		if (typeof decoded === "string") throw new Fault(line, decoded);
		let values = decoded.ordinates;
		if (values.length === 0) return;
		checkAbscissa(decoded.x * xFactor, first, step, ordinates.length, repeats, text, xFactor, line);
		if (repeats) {
			const last = ordinates[ordinates.length - 1];
			if (Math.abs(values[0] - last) > 1e-9 * Math.max(1, Math.abs(last))) throw new Fault(line, `the ordinate check fails: ${values[0]} should repeat ${last}`, "the file is damaged; export it again");
			values = values.slice(1);
		}
		for (const value of values) {
			ordinates.push(value);
			lines.push(line);
		}
		repeats = decoded.endsInDifference;
	});
	checkCount(ordinates.length, count, data.line);
	checkFirst(find, ordinates[0] * yFactor, yFactor);
	return {
		x: Float64Array.from(ordinates, (_, i) => first + i * step),
		y: Float64Array.from(ordinates, (value) => value * yFactor),
		lines: Int32Array.from(lines)
	};
}
/** Each line's abscissa must be where its ordinates are, to half a step and its own rounding. */
function checkAbscissa(x, first, step, index, repeats, text, xFactor, line) {
	const expected = first + step * index;
	const fraction = /^\s*[+-]?\d*\.?(\d*)/.exec(text)?.[1].length ?? 0;
	const tolerance = .5 * Math.abs(step) + Math.abs(xFactor) * .5 * 10 ** -fraction + 1e-6 * Math.abs(x);
	const other = repeats ? expected - step : expected;
	if (Math.abs(x - expected) <= tolerance || Math.abs(x - other) <= tolerance) return;
	throw new Fault(line, `the abscissa check fails: ${short(x)} should be ${short(expected)}`, "lines are missing or damaged; export it again");
}
function checkCount(found, stated, line) {
	if (found === stated) return;
	throw new Fault(line, `##NPOINTS= says ${stated} and there are ${found}`, "the file is not whole; copy it again");
}
/** FIRSTY is rounded as it is printed, so it may differ by a step of the ordinates or 0.1 %. */
function checkFirst(find, value, yFactor) {
	const record = find("FIRSTY");
	const stated = Number(record?.lines[0].trim() || NaN);
	if (Number.isNaN(stated) || Number.isNaN(value)) return;
	const tolerance = 1.01 * Math.abs(yFactor) + .001 * Math.abs(stated);
	if (Math.abs(stated - value) <= tolerance) return;
	const why = `##FIRSTY= says ${short(stated)} and the first ordinate is ${short(value)}`;
	throw new Fault(record?.line ?? null, why, "the file is damaged; export it again");
}
/** `(XY..XY)`: pairs of plain numbers. */
function readXyPoints(find, pairs) {
	const xFactor = numberIn(find, "XFACTOR", 1);
	const yFactor = numberIn(find, "YFACTOR", 1);
	const x = [];
	const y = [];
	const lines = [];
	pairs.lines.slice(1).forEach((text, index) => {
		const line = pairs.line + index + 1;
		const cells = text.trim().split(/\s*[;,]\s*|\s+/).filter((cell) => cell !== "");
		if (cells.length % 2 !== 0) throw new Fault(line, `${quoted(text.trim())} is not in pairs`);
		cells.forEach((cell, i) => {
			const value = cell === "?" ? NaN : Number(cell);
			if (cell !== "?" && !Number.isFinite(value)) throw new Fault(line, `${quoted(cell)} is not a number`);
			if (i % 2 === 1) y.push(value * yFactor);
			else {
				x.push(value * xFactor);
				lines.push(line);
			}
		});
	});
	checkCount(x.length, numberIn(find, "NPOINTS", x.length), pairs.line);
	return {
		x: Float64Array.from(x),
		y: Float64Array.from(y),
		lines: Int32Array.from(lines)
	};
}
// ../../work/wt-reader/src/readers/signature.ts
/** How far into a file the beginnings of text formats are looked for. */
var LOOKED_AT = 4096;
/** Tells a file by its beginning: the published signatures of each format. */
function signatureOf(bytes) {
	if (bytes.length === 0) return "empty";
	const starts = (...values) => values.every((value, i) => bytes[i] === value);
	if (starts(73, 73, 42, 0) || starts(77, 77, 0, 42)) return "tiff";
	if (starts(73, 73, 43, 0) || starts(77, 77, 0, 43)) return "tiff";
	if (starts(255, 216, 255)) return "photo";
	if (starts(137, 80, 78, 71)) return "photo";
	if (isPlainBeginning(bytes)) return "other";
	const text = latin(bytes);
	if (/^....ftyp(heic|heix|hevc|mif1|avif)/su.test(text) || /^RIFF....WEBP/su.test(text)) return "photo";
	if (text.startsWith("GIF8") || text.startsWith("BM\0")) return "image";
	if (starts(80, 75, 3, 4) || starts(80, 75, 5, 6)) return "zip";
	if (starts(31, 139) || text.startsWith("7z¼¯") || text.startsWith("Rar!")) return "compressed";
	if (text.startsWith("%PDF") || starts(208, 207, 17, 224)) return "document";
	return textSignature(text);
}
/** Whether the first byte that is no blank begins no format but a plain table (a mere shortcut). */
function isPlainBeginning(bytes) {
	let i = 0;
	while (i < LOOKED_AT && (bytes[i] === 32 || bytes[i] >= 9 && bytes[i] <= 13)) i++;
	for (let at = i; at < i + 8 && at < bytes.length; at++) if (bytes[at] > 126 || bytes[at] < 32 && bytes[at] !== 9 && bytes[at] !== 10 && bytes[at] !== 13) return false;
	const byte = bytes[i];
	if (byte >= 48 && byte <= 57) return true;
	const letter = byte | 32;
	return letter >= 97 && letter <= 122 && !"bgnr".includes(String.fromCharCode(letter));
}
function textSignature(text) {
	const plain = text.replace(/^\xef\xbb\xbf|^[\xff\xfe]{2}/, "").replaceAll("\0", "").trimStart();
	if (/^<(\?xml|gpx|!DOCTYPE|!--)/iu.test(plain)) return "xml";
	if (/^[{[]/.test(plain)) {
		if (/"type"\s*:\s*"(FeatureCollection|Feature|Point|MultiPoint|LineString|MultiLineString|Polygon|MultiPolygon|GeometryCollection)"/.test(plain)) return "geojson";
		if (/^(\{\s*("|\})|\[\s*[{["\d-])/.test(plain)) return "json";
	}
	if (/^(\$\$[^\n]*\n\s*)*##\s*TITLE\s*=/iu.test(plain)) return "exchange";
	if (/^ncols\s+\d+\s+nrows\s+\d+/iu.test(plain)) return "ascii grid";
	return "other";
}
function latin(bytes) {
	return String.fromCharCode(...bytes.subarray(0, LOOKED_AT));
}
// ../../work/wt-reader/src/readers/column-roles.ts
/** Finds each column's part from the headings, and without them from the numbers. */
function rolesOf(body, headings, columns) {
	const all = Array.from({ length: columns }, (_, column) => column);
	const wavelength = wavelengthColumn(body, headings);
	const others = all.filter((column) => column !== wavelength && !isEmpty(body, column));
	const plainLayout = others.length > 1 ? "scans in columns" : "two columns";
	if (headings === null) return {
		wavelength,
		scans: others.filter((column) => column > wavelength),
		ratio: null,
		layout: plainLayout
	};
	const reflectance = others.filter((column) => isReflectanceHeading(headings[column]));
	if (reflectance.length > 0) {
		const layout = others.length > reflectance.length ? "reflectance by its heading" : plainLayout;
		const scans = reflectance.filter((column) => !isSpreadHeading(headings[column]));
		return {
			wavelength,
			scans: scans.length > 0 ? scans : reflectance,
			ratio: null,
			layout
		};
	}
	const find = (is) => others.find((column) => is(headings[column])) ?? -1;
	const panel = find(isPanelHeading);
	const spot = others.find((column) => column !== panel && isSpotHeading(headings[column])) ?? -1;
	if (panel >= 0 && spot >= 0) return {
		wavelength,
		scans: [],
		ratio: {
			panel,
			spot,
			dark: find(isDarkHeading)
		},
		layout: "panel and spot"
	};
	return {
		wavelength,
		scans: others.filter((column) => !isSpreadHeading(headings[column]) && !isChannelHeading(headings[column])),
		ratio: null,
		layout: plainLayout
	};
}
/** Whether a column has neither a value nor a fault: left by a delimiter at the lines' ends. */
function isEmpty(body, column) {
	return !body.cellFaults.has(column) && body.columns[column].every(Number.isNaN);
}
function wavelengthColumn(body, headings) {
	const named = headings?.findIndex(isWavelengthHeading) ?? -1;
	if (named >= 0) return named;
	const [first, second] = body.columns;
	if (body.columns.length < 3 || first.length < 2 || first[0] !== 0 && first[0] !== 1) return 0;
	return first.every((value, row) => value === first[0] + row) && second[0] >= .1 && second[0] < second[1] ? 1 : 0;
}
// ../../work/wt-reader/src/readers/recognise.ts
/** The fields that the work needs, found among metadata by the spellings in use. */
/** For each field its spellings as `headingWords` gives them, the surest first. */
var SPELLINGS = {
	name: "name|scan name|scan|scan id|spectrum|spectrum name|spectrum id|measurement|measurement id|file name|filename|scan number|scan no|spectrum number",
	sample: "sample|sample id|sample name|sample number|sample no|sampleid|sampleno|station|station id|station name|site|site id|specimen|specimen id|id|point|point id|waypoint",
	dateTime: "time|datetime|date time|date and time|time and date|timestamp|time stamp|acquired|acquisition time|acquisition date time|scan time|measurement time|measured|measured at|recorded|collected|utc|utc time|gps time|gps utc|local time|time utc|time local|saved|created|spectrum saved|longdate",
	date: "date|acquisition date|scan date|measurement date|date utc|gps date|day|utc date|local date|collection date",
	zone: "time zone|timezone|utc offset|zone offset|gmt offset|tz",
	longitude: "longitude|lon|long|lng|gps longitude|gps lon|gps long|lon dd|long dd|x lon|longitude dd|longitude wgs84|wgs84 longitude|lon wgs84|longitude deg|lon deg",
	latitude: "latitude|lat|gps latitude|gps lat|lat dd|y lat|latitude dd|latitude wgs84|wgs84 latitude|lat wgs84|latitude deg|lat deg",
	easting: "easting|eastings|east|utm easting|utm east|utm e|utme|x|xcoord|x coord|x coordinate|e|utm x|east m|easting m|grid east|coord x|mga e|mga east",
	northing: "northing|northings|north|utm northing|utm north|utm n|utmn|y|ycoord|y coord|y coordinate|n|utm y|north m|northing m|grid north|coord y|mga n|mga north",
	elevation: "elevation|elev|altitude|alt|height|z|rl|gps altitude|gps elevation|gps alt|elevation m|altitude m|elev m|msl|z m",
	crs: "crs|epsg|coordinate system|coordinate reference system|projection|datum|grid|srs|spatial reference",
	crsZone: "utm zone|zone|grid zone|mga zone",
	accuracy: "accuracy|gps accuracy|horizontal accuracy|position error|gps error|hdop|epe|coordinate accuracy|position accuracy|precision",
	support: "support|sample type|material|medium|sample medium|sample kind|station type|type",
	target: "target|scan target|surface|surface type|spot type|scan of|measured on|scanned surface",
	operator: "operator|user|observer|geologist|analyst|measured by|recorded by|scanned by|collected by|by|owner|logger",
	probe: "probe|foreoptic|fore optic|accessory|optic|attachment|foreoptics",
	spot: "spot|spot size|spot diameter|aperture|spot mm|measurement spot",
	integration: "integration|integration time|integration ms|exposure|exposure time|int time|integration times|vnir integration time",
	whiteReference: "white reference|white reference time|white ref|white ref time|reference time|last white reference|white panel|panel time|white reference taken|time of white reference|last white ref|wr time|white reference at|last reference|white time|calibration time",
	battery: "battery|battery voltage|battery level|battery v|battery volts|battery percent|voltage|battery charge",
	temperature: "temperature|temp|ambient temperature|instrument temperature|detector temperature|air temperature|temp c|temperature c",
	comment: "comment|comments|note|notes|remark|remarks|description|memo|field notes",
	hole: "hole|hole id|holeid|bhid|dhid|drillhole|drill hole|drill hole id|drillhole id|borehole|borehole id|well|hole name|hole number|hole no|ddh",
	from: "from|depth from|from m|from depth|start depth|depth start|from ft|top|depth top|depthfrom|mfrom",
	to: "to|depth to|to m|to depth|end depth|depth end|to ft|bottom|base|depth bottom|depthto|mto",
	depth: "depth|depth m|hole depth|downhole depth|down hole depth|depth ft|measured depth|core depth|md|depth along hole"
};
var FIELD_OF = /* @__PURE__ */ new Map();
for (const field of Object.keys(SPELLINGS)) SPELLINGS[field].split("|").forEach((words, rank) => {
	if (!FIELD_OF.has(words)) FIELD_OF.set(words, {
		field,
		rank
	});
});
/** The field that a key or a column's heading is known as, or null. */
function fieldOf(key) {
	return FIELD_OF.get(headingWords(key))?.field ?? null;
}
/**
* Finds the known fields among metadata.
*
* @param dateOrder how dates such as `05/03/2024` are meant, where the user has said so
*/
function recognise(metadata, dateOrder) {
	const found = findFields(metadata);
	const text = (field) => found.get(field)?.value ?? null;
	const timeText = joined(text("date"), text("dateTime"), text("zone"));
	return {
		name: text("name"),
		sample: text("sample"),
		time: timeText === null ? null : parseMoment(timeText, dateOrder),
		timeText,
		longitudeText: text("longitude"),
		latitudeText: text("latitude"),
		eastingText: text("easting"),
		northingText: text("northing"),
		elevationText: text("elevation"),
		crsText: joined(text("crs"), zoned(text("crsZone"))),
		accuracyText: text("accuracy"),
		support: text("support"),
		target: text("target"),
		operator: text("operator"),
		probe: text("probe"),
		spot: text("spot"),
		integration: text("integration"),
		whiteReference: whiteReference(text("whiteReference"), timeText, dateOrder),
		battery: text("battery"),
		temperature: text("temperature"),
		comment: text("comment"),
		hole: text("hole"),
		from: metres(found.get("from")),
		to: metres(found.get("to")),
		depth: metres(found.get("depth"))
	};
}
/** The surest spelling of each field that has a value. */
function findFields(metadata) {
	const found = /* @__PURE__ */ new Map();
	for (const [key, value] of Object.entries(metadata)) {
		const known = FIELD_OF.get(headingWords(key));
		if (known === void 0 || value.trim() === "") continue;
		const before = found.get(known.field);
		if (before === void 0 || known.rank < before.rank) found.set(known.field, {
			key,
			value: value.trim(),
			rank: known.rank
		});
	}
	return found;
}
function joined(...parts) {
	const present = parts.filter((part) => part !== null);
	return present.length === 0 ? null : present.join(" ");
}
/** A bare zone such as `19S` is a UTM zone. */
function zoned(zone) {
	return zone !== null && /^\d{1,2}\s*\p{L}?$/u.test(zone) ? `UTM zone ${zone}` : zone;
}
/** The time of the white reference; without a date or zone it is on the scan's own. */
function whiteReference(text, scanTime, dateOrder) {
	if (text === null) return null;
	const zone = scanTime === null ? null : statedZone(scanTime, dateOrder);
	const whole = parseMoment(text, dateOrder, zone ?? void 0);
	if (whole !== null || scanTime === null) return whole;
	const day = scanTime.replace(/T?\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?\s*([ap]\.?m\.?)?.*$/iu, " ");
	return parseMoment(`${day} ${/\d{4}/.test(day) ? "" : /\d{1,2}:\d{2}\S*\s+(\d{4})/.exec(scanTime)?.[1] ?? ""} ${text}`, dateOrder, zone ?? void 0);
}
/** International feet (0.3048 m exactly, 1959 agreement) where key or value says so. */
function metres(found) {
	if (found === void 0) return null;
	const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|ft|feet|')?$/iu.exec(found.value);
	if (match === null) return null;
	const value = Number(match[1].replace(",", "."));
	const unit = match[2] ?? (/\b(ft|feet)\b|_ft$/iu.test(found.key) ? "ft" : "m");
	return /^(ft|feet|')/iu.test(unit) ? value * .3048 : value;
}
// ../../work/wt-reader/src/readers/row-problem.ts
/** The whole file left out for one row. */
function rowProblem(text, fault, format) {
	const { problem, advice } = rowFaultWords(text, fault, format);
	return leftOut(text.file, fault.line, problem, advice);
}
/** What is wrong with a row and what to do, without the file. */
function rowFaultWords(text, fault, format) {
	const { bytes } = text;
	if (fault.kind === "long") return {
		problem: "a line of over a million bytes, which is no table",
		advice: "export it again"
	};
	if (fault.kind === "many") return {
		problem: `more than ${MOST_ROWS$1} rows, which no instrument’s channels are`,
		advice: "split it, if it holds several scans"
	};
	if (bytes.subarray(fault.start, fault.end).includes(0)) return {
		problem: "NUL bytes among the numbers: the file is damaged",
		advice: "copy it again"
	};
	const written = quoted(textOf$1(bytes, fault.start, Math.min(fault.end, fault.start + 200)));
	if (fault.kind === "not a number") return {
		problem: `${written} is not a number`,
		advice: "correct the cell or export it again"
	};
	if (fault.isLast && fault.found < format.columns) return {
		problem: `the file breaks off: its last row ${written} has ${fault.found} of ${format.columns} cells`,
		advice: "copy it again"
	};
	return {
		problem: `the row ${written} has ${`${fault.found} ${fault.found === 1 ? "cell" : "cells"}`} where others have ${format.columns}`,
		advice: "correct the row or export the file again"
	};
}
// ../../work/wt-reader/src/readers/text-file.ts
/** A text on its way through the readers. */
/** A delimiter's byte in words, for the layout. */
function delimiterName(delimiter) {
	if (delimiter === 9) return "tab";
	if (delimiter === 59) return "semicolon";
	if (delimiter === 44) return "comma";
	return delimiter === 32 ? "blanks" : void 0;
}
/** What delimits pairs in header lines above such a table, where it is not a sign of its own. */
function pairDelimiter(delimiter) {
	if (delimiter === 44) return ",";
	return delimiter === 59 ? ";" : void 0;
}
// ../../work/wt-reader/src/readers/columns.ts
/** Reads tables whose rows are wavelengths: one scan, many, or panel and spot. */
/** Reads a table of numbers in columns from its first row on. */
function readColumns(text, start, firstLine, format, preamble) {
	const body = readBody(text.bytes, start, firstLine, format);
	if (body.rowFault !== null) return rowProblem(text, body.rowFault, format);
	const found = rolesOf(body, preamble.headings, format.columns);
	const names = columnNames(preamble.headings, format.columns);
	const look = lookOf([
		found.layout,
		delimiterName(format.delimiter) ?? "",
		format.decimal === 44 ? "decimal comma" : "",
		axisWords(body.columns[found.wavelength]),
		headingPattern(preamble.headings)
	], format.columns > 2 ? names.filter((_, column) => column !== found.wavelength && !isEmpty(body, column)) : []);
	const asked = text.overrides.column;
	if (asked === void 0) return {
		...readRoles(text, body, found, format, preamble, look),
		look
	};
	const column = names.indexOf(asked);
	if (column < 0 || column === found.wavelength) return {
		...leftOutAt(text, firstLine, {
			problem: `no column ${quoted(asked)} to take for reflectance; here are ${look.columns.map(quoted).join(", ")}`,
			advice: "choose another column for files alike"
		}),
		look
	};
	return {
		...readRoles(text, body, {
			wavelength: found.wavelength,
			scans: [column],
			ratio: null,
			layout: CHOSEN
		}, format, preamble, look),
		look
	};
}
/** What a layout is called in which a person has said which column is reflectance. */
var CHOSEN = "a column that was chosen";
function readRoles(text, body, roles, format, preamble, look) {
	const fault = faultOf(text, body, roles, format, preamble);
	if (fault !== null) return fault;
	const { scans, problems } = scansOf(text, body, roles, format, preamble);
	const raw = rawScans(text, body, roles, format, preamble, scans);
	const settled = settleAxis(raw, text.overrides, problems);
	if ("layout" in settled) return settled;
	const result = assembleOn(settled, raw, text.overrides, problems);
	const { stencil } = body;
	const isForm = result.kind === "scans" && result.problems.length === 0 && settled.splice === null;
	if (stencil !== void 0 && isForm && isSettledByHead(text, roles, preamble)) keepForm({
		head: text.bytes.subarray(0, text.bytes.length - stencil.length),
		stencil,
		raw,
		settled,
		isNamedByFile: nameInHead(preamble, 1) === null,
		look
	});
	return result;
}
/**
* Whether head and axis alone say what such a file is: nothing was said by hand, its bytes are its
* text, and its first column is headed as wavelengths or not at all.
*/
function isSettledByHead({ overrides, encoding }, { wavelength, scans, layout }, { headings }) {
	const isPlain = wavelength === 0 && scans.length === 1 && layout === "two columns";
	const isAsWritten = Object.keys(overrides).length === 0 && encoding === "UTF-8";
	return isPlain && isAsWritten && (headings === null || isWavelengthHeading(headings[0]));
}
function rawScans(text, body, roles, format, preamble, scans) {
	const { headings, headingText, metadata } = preamble;
	const first = roles.scans[0] ?? 0;
	const reflectanceHint = roles.ratio ? "fraction" : `${headings?.[first] ?? reflectancePart(headingText)} ${reflectanceKeys(metadata)}`;
	const isOneOfMany = format.columns > 2 && roles.scans.length === 1;
	return {
		file: text.file,
		axis: body.columns[roles.wavelength],
		lineOf: (channel) => `line ${body.lines[channel]}`,
		lineNumber: (channel) => body.lines[channel] ?? null,
		scans,
		wavelengthHint: headings?.[roles.wavelength] ?? wavelengthHint(preamble),
		reflectanceHint,
		layout: {
			name: roles.layout,
			...isOneOfMany ? { column: columnNames(headings, format.columns)[first] } : {},
			decimal: decimalSign(format.decimal),
			delimiter: delimiterName(format.delimiter),
			encoding: text.encoding
		}
	};
}
/** The table left out, where its axis or its columns cannot be what they are taken for; or null. */
function faultOf(text, body, roles, format, { metadata }) {
	const axisFault = body.cellFaults.get(roles.wavelength);
	if (axisFault !== void 0) return rowProblem(text, axisFault, format);
	const axis = body.columns[roles.wavelength];
	const gap = firstGap(axis);
	if (gap >= 0) return leftOutAt(text, body.lines[gap], {
		problem: "a row without its wavelength",
		advice: "export it again"
	});
	const stated = statedCount(metadata);
	if (stated !== null && stated !== axis.length) {
		const problem = `the header says ${stated} channels and there are ${axis.length}`;
		return leftOutAt(text, body.lines[0], {
			problem,
			advice: "the file is not whole; copy it again"
		});
	}
	const columns = roles.scans.map((column) => body.columns[column]);
	if (roles.ratio === null && areOfDifferentKinds(columns)) return leftOutAt(text, body.lines[0], {
		problem: "columns of different sizes, which cannot all be reflectance",
		advice: "say in the Scans step which column is reflectance, or name each in one heading row"
	});
	return null;
}
/** The scans of a table, and what is told of those that a bad cell costs. */
function scansOf(text, body, { scans: columns, ratio }, format, preamble) {
	const problems = [];
	const isBad = (column, name) => {
		const fault = body.cellFaults.get(column);
		if (fault !== void 0) problems.push(scanProblem(text, fault, format, name));
		return fault !== void 0;
	};
	const line = body.lines[0] ?? null;
	if (ratio !== null) {
		if ([
			ratio.panel,
			ratio.spot,
			ratio.dark
		].some((column) => isBad(column, stemOf(text.file)))) return {
			scans: [],
			problems
		};
		const values = reflectanceFrom(body, ratio);
		return {
			scans: [{
				name: scanName(text.file, preamble, -1, 1),
				values,
				metadata: preamble.metadata,
				line
			}],
			problems
		};
	}
	return {
		scans: columns.flatMap((column) => {
			const name = scanName(text.file, preamble, column, columns.length);
			if (isBad(column, name)) return [];
			const metadata = scanMetadata(preamble, column);
			return [{
				name,
				values: body.columns[column],
				metadata,
				line
			}];
		}),
		problems
	};
}
/** How many channels the header says there are, or null. */
function statedCount(metadata) {
	for (const [key, value] of Object.entries(metadata)) if (/^(number of (x values|points|channels|data points|wavelengths)|npoints)$/iu.test(key)) return /^\d+$/.test(value) ? Number(value) : null;
	return null;
}
/** Whether some columns can only be ten-thousandths or raw signal, and others only smaller units. */
function areOfDifferentKinds(columns) {
	if (columns.length < 2) return false;
	const sizes = columns.map((column) => quantile(column, .95)).filter((size) => !Number.isNaN(size));
	return Math.max(...sizes) > 250 && Math.min(...sizes) <= 120;
}
function firstGap(values) {
	if (!values.includes(NaN)) return -1;
	for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) return i;
	return -1;
}
function leftOutAt(text, line, words) {
	const done = `left out; ${words.advice}`;
	return {
		kind: "unknown",
		scans: [],
		tables: [],
		tracks: [],
		layout: null,
		problems: [{
			file: text.file,
			line,
			problem: words.problem,
			done
		}]
	};
}
function scanProblem(text, fault, format, name) {
	const { problem, advice } = rowFaultWords(text, fault, format);
	const done = `the scan ${quoted(name)} was left out; ${advice}`;
	return {
		file: text.file,
		line: fault.line,
		problem,
		done
	};
}
/** (spot − dark) / (panel − dark); a gap where the panel has no signal. */
function reflectanceFrom(body, { panel, spot, dark }) {
	const panelSignal = body.columns[panel];
	const spotSignal = body.columns[spot];
	return panelSignal.map((signal, row) => {
		const base = dark >= 0 ? body.columns[dark][row] : 0;
		return signal - base > 0 ? (spotSignal[row] - base) / (signal - base) : NaN;
	});
}
var PLAIN_HEADING = /^(refl?(ectance)?s?|r|value|y|intensity|reflect|albedo|data|spectrum|signal|target|rock)$/u;
/** The heading where it names the scan, else a name in the metadata, else the file's own. */
function scanName(file, preamble, column, scans) {
	const own = headingName(preamble, column);
	if (own !== null) return own;
	const named = nameInHead(preamble, column) ?? stemOf(file);
	const heading = preamble.headings?.[column] ?? "";
	if (scans <= 1) return named;
	return heading === "" ? `${named} ${column}` : `${named} ${heading}`;
}
/** The name that the head gives, in a column's heading or in a line of its own; or null. */
function nameInHead(preamble, column) {
	return headingName(preamble, column) ?? recognise(preamble.metadata).name;
}
/** A column's heading, where it names the scan rather than what was measured; or null. */
function headingName({ headings }, column) {
	const heading = headings?.[column] ?? "";
	const words = heading.replace(/\([^)]*\)|\[[^\]]*\]|%|[./]/g, "").trim().toLowerCase();
	return words !== "" && !PLAIN_HEADING.test(words) && !isReflectanceHeading(heading) ? heading : null;
}
function scanMetadata(preamble, column) {
	const metadata = { ...preamble.metadata };
	for (const row of preamble.columnRows) if (row[0] !== "" && row[column] !== "" && row[column] !== void 0) metadata[row[0].replace(/\s*[:=]$/, "")] = row[column];
	return metadata;
}
function wavelengthHint(preamble) {
	const keyed = Object.entries(preamble.metadata).filter(([key]) => /wave\s*-?(length|number)|^x\s*-?units?$/iu.test(key)).map(([key, value]) => `${key} ${value}`);
	return [preamble.headingText, ...keyed].join(" ");
}
function reflectanceKeys(metadata) {
	return Object.entries(metadata).filter(([key]) => /^(reflectance|y)\s*-?(units?|scale|in)$|^(data )?units?$|^reflectance$/iu.test(key)).map(([, value]) => value).join(" ");
}
/** What a heading line without columns says after its wavelength. */
function reflectancePart(heading) {
	return /refl.*$|%.*$/iu.exec(heading)?.[0] ?? "";
}
// ../../work/wt-reader/src/readers/preamble.ts
/** What stands above a table of numbers: pairs, headings, rows of metadata a column. */
/** Sorts the lines above the numbers. */
function readPreamble(bytes, lines, format) {
	const rows = lines.map((line) => textOf$1(bytes, line.start, line.end));
	const cells = lines.map(({ start, end }, index) => {
		const found = headingCells(rows[index], format);
		if (found !== null || format.delimiter !== 9) return found;
		return headingCells(untrimmedTextOf(bytes, start, end), format);
	});
	const last = rows.length - 1;
	const top = topOfCells(cells, format.columns);
	const headingLine = headingIndex(cells, top, format.columns);
	const isNamed = headingLine >= 0 && (cells[headingLine]?.some(isWavelengthHeading) ?? false);
	const hint = headingLine < 0 && last >= 0 && isHint(rows[last]) ? last : -1;
	const isColumnRow = (index) => format.columns > 2 && index >= top && index !== headingLine && cells[index] !== null;
	const metadata = new MetadataCollector();
	rows.forEach((row, index) => {
		if (index !== headingLine && index !== hint && !isColumnRow(index)) metadata.addLine(row, pairDelimiter(format.delimiter));
	});
	return {
		headings: headingLine >= 0 ? cells[headingLine] : null,
		headingLine,
		headingText: headingLine === last || hint === last ? rows[last] ?? "" : "",
		columnRows: cells.filter((row, index) => row !== null && isColumnRow(index)),
		metadata: metadata.record(),
		damaged: damagedLine$1(rows, cells, isNamed ? headingLine : -1, format)
	};
}
/** The first of the lines just above the numbers that have a cell a column. */
function topOfCells(cells, columns) {
	let top = cells.length;
	const limit = columns > 2 ? 0 : cells.length - 2;
	while (top > 0 && top > limit && cells[top - 1] !== null) top--;
	return top;
}
/** The heading that names wavelengths, or samples, else the lowest that may be one; -1 for none. */
function headingIndex(cells, top, columns) {
	const among = cells.map((row, index) => index >= top ? row : null);
	const named = among.findIndex((row) => row?.some(isWavelengthHeading) ?? false);
	if (named >= 0) return named;
	const placed = among.findIndex((row) => (row?.filter(isPlaceHeading).length ?? 0) > 1);
	if (placed >= 0) return placed;
	const last = cells.length - 1;
	if (columns > 2) return top < cells.length ? last : -1;
	return isPairOfHeadings(cells[last] ?? null) ? last : -1;
}
/** Two cells just above two columns that are headings rather than a key and its value. */
function isPairOfHeadings(cells) {
	return cells?.length === 2 && (cells[0] === "" || isChannelHeading(cells[0]));
}
/** Whether a line without a cell a column still speaks of wavelengths. */
function isHint(row) {
	return !/[:=]/.test(row) && row.split(/[\s,;]+/).some(isWavelengthHeading);
}
/** A line's cells where there is one a column, by the table's delimiter or another. */
function headingCells(row, format) {
	const line = row.replace(/^\s*(?:#|%|\/\/)\s*/, "");
	const sign = format.delimiter === 32 ? null : String.fromCharCode(format.delimiter);
	const tries = sign === null ? [
		"	",
		/\t+|\s{2,}/,
		/\s+(?![([])/,
		/\s+/,
		",",
		";"
	] : [
		sign,
		"	",
		/\s{2,}/
	];
	for (const by of tries) {
		const cells = line.split(by).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1").trim());
		if (cells.length === format.columns) return cells;
	}
	return null;
}
/**
* A line that was a row before it was damaged: what begins with a number; what follows a heading of wavelengths and is no row
* of units or metadata, or what stands just above the numbers and is nearly a number itself; or a
* heading with too few or too many cells for several columns.
*/
function damagedLine$1(rows, cells, heading, format) {
	const { columns } = format;
	const last = rows.length - 1;
	if (last < 0) return -1;
	const beginsAsRow = rows.findIndex((row) => beginsWithNumbers(row, format));
	if (beginsAsRow >= 0) return beginsAsRow;
	if (heading >= 0) return rows.findIndex((_, index) => index > heading && !isUnitsOrMetadata(cells[index], cells[heading]));
	if (isNearlyNumbers(rows[last])) return last;
	return columns > 2 && cells[last] === null && isHint(rows[last]) ? last : -1;
}
/** Whether a line's first cell is a number, and between blanks the second too: header lines begin with words. */
function beginsWithNumbers(row, { delimiter, decimal }) {
	const cells = row.split(delimiter === 32 ? /\s+/ : String.fromCharCode(delimiter));
	if (cells.length < 2) return false;
	const isNumber = (cell) => {
		const text = decimal === 44 ? cell.replace(",", ".") : cell;
		return text.trim() !== "" && Number.isFinite(Number(text));
	};
	return isNumber(cells[0]) && (delimiter !== 32 || isNumber(cells[1]));
}
/** A row below the heading that holds no numbers, or a key and a value for each of many scans. */
function isUnitsOrMetadata(cells, headings) {
	if (cells === null || headings === null) return false;
	if (cells.every((cell) => !/\d{2}/.test(cell))) return true;
	const wavelength = headings.findIndex(isWavelengthHeading);
	return cells.length > 2 && wavelength === 0 && /^\p{L}{2}/u.test(cells[0]);
}
/** Three digits or more and at most one sign that belongs to no number; dates and counts are let be. */
function isNearlyNumbers(row) {
	if (/^\W*\d+\W*$/.test(row) || /\d{1,4}[-/]\d{1,2}[-/]\d{1,4}|\d:\d\d/.test(row)) return false;
	return row.replace(/[\d.,;\s+\-eE"]/g, "").length <= 1 && row.replace(/\D/g, "").length >= 3;
}
// ../../work/wt-reader/src/readers/stacked.ts
var MOST_BLOCKS = 2e4;
var FIRST_CELL = /^\s*"?([^\s;,\t"]+)/;
/**
* All scans of a stack; null where the text is none.
*
* @param readBlock reads a header with its rows
*/
function readStacked(text, readBlock) {
	const blocks = blocksOf(text.bytes);
	if (blocks === null) return null;
	if ("tooManyFrom" in blocks) {
		const problem = `more than ${MOST_BLOCKS} tables one after another`;
		const advice = `split it into files of at most ${MOST_BLOCKS} scans`;
		return leftOut(text.file, blocks.tooManyFrom, problem, advice);
	}
	const axis = commonAxis(blocks);
	if (axis === null) return null;
	const problems = [];
	const whole = blocks.filter((block) => {
		if (block.axis === axis) return true;
		problems.push(oddBlock(text.file, block, blocks, axis));
		return false;
	});
	const results = whole.map((block) => readAt(text, block, {}, readBlock));
	const agreed = agreedUnits(results);
	const scans = [];
	const names = /* @__PURE__ */ new Set();
	let first = null;
	results.forEach((result, i) => {
		const own = differs(result.layout, agreed) ? readAt(text, whole[i], agreed, readBlock) : result;
		problems.push(...own.problems);
		if (own.layout !== null) first ??= own;
		for (const scan of own.scans) scans.push(named(scan, names, first?.scans[0], i + 1));
	});
	if (first === null) return null;
	const { layout, look } = first;
	return {
		kind: "scans",
		scans,
		tables: [],
		tracks: [],
		layout: layout && {
			...layout,
			name: `stacked, ${layout.name}`
		},
		look: look && {
			...look,
			like: `stacked, ${look.like}`
		},
		problems: problems.sort((a, b) => (a.line ?? 0) - (b.line ?? 0))
	};
}
/**
* The blocks of a text; null where there are fewer than two.
*
* @returns the line of the first header too many where there are more than are read
*/
function blocksOf(bytes) {
	const blocks = [];
	let header = {
		start: 0,
		line: 1,
		lines: 0
	};
	const rows = {
		count: 0,
		first: 0,
		firstLine: 0,
		last: 0,
		end: 0
	};
	const close = () => {
		if (rows.count >= 10 && (header.lines > 0 || blocks.length === 0)) {
			const axis = `${rows.count} ${firstCell(bytes, rows.first)} ${firstCell(bytes, rows.last)}`;
			const { start, line } = header;
			const { end, count, firstLine: rowsLine } = rows;
			blocks.push({
				start,
				end,
				line,
				rows: count,
				rowsLine,
				axis
			});
		}
	};
	let line = 1;
	for (let at = 0; at < bytes.length; line++) {
		const end = lineEnd(bytes, at);
		if (!isBlank(bytes, at, end)) {
			if (looksNumeric(bytes, at, end)) {
				if (rows.count === 0) {
					rows.first = at;
					rows.firstLine = line;
				}
				rows.count++;
				rows.last = at;
				rows.end = end;
			} else {
				if (rows.count >= 10) {
					close();
					if (blocks.length === MOST_BLOCKS) return { tooManyFrom: line };
					header = {
						start: at,
						line,
						lines: 0
					};
				}
				rows.count = 0;
				header.lines++;
			}
		}
		at = nextLine(bytes, end);
	}
	close();
	return blocks.length < 2 ? null : blocks;
}
function firstCell(bytes, at) {
	const start = new TextDecoder("latin1").decode(bytes.subarray(at, Math.min(at + 60, bytes.length)));
	return FIRST_CELL.exec(start)?.[1] ?? "";
}
/** The axis that the most blocks have, the first of equals; null where no two agree. */
function commonAxis(blocks) {
	const counts = /* @__PURE__ */ new Map();
	for (const { axis } of blocks) counts.set(axis, (counts.get(axis) ?? 0) + 1);
	const [axis, count] = [...counts].sort((a, b) => b[1] - a[1])[0];
	return count > 1 ? axis : null;
}
function oddBlock(file, block, blocks, axis) {
	const usual = blocks.find((other) => other.axis === axis)?.rows ?? 0;
	const what = block.rows === usual ? "begins or ends at another wavelength than the others" : `has ${block.rows} rows where the others have ${usual}`;
	return {
		file,
		line: block.rowsLine,
		problem: `a table in a file of several scans ${what}`,
		done: "this scan was left out; export it again in a file of its own"
	};
}
/** Reads a block alone; its problems tell the line in the whole file. */
function readAt(text, { start, end, line }, units, readBlock) {
	const overrides = {
		...units,
		...text.overrides
	};
	const result = readBlock({
		...text,
		bytes: text.bytes.subarray(start, end),
		overrides
	});
	const moved = result.problems.map((problem) => ({
		...problem,
		line: problem.line === null ? line : problem.line + line - 1
	}));
	return {
		...result,
		problems: moved
	};
}
/** The units that the most blocks were read in: one instrument writes them all alike. */
function agreedUnits(results) {
	const counts = /* @__PURE__ */ new Map();
	for (const { layout } of results) {
		if (layout === null) continue;
		const { wavelengthUnit, reflectanceUnit } = layout;
		const key = `${wavelengthUnit} ${reflectanceUnit}`;
		const known = counts.get(key);
		if (known) known.count++;
		else counts.set(key, {
			units: {
				wavelengthUnit,
				reflectanceUnit
			},
			count: 1
		});
	}
	return [...counts.values()].sort((a, b) => b.count - a.count)[0]?.units ?? {};
}
function differs(layout, units) {
	return layout !== null && (layout.wavelengthUnit !== units.wavelengthUnit || layout.reflectanceUnit !== units.reflectanceUnit);
}
/** A scan under a name that no other of the file has, on the axis that all share. */
function named(scan, names, first, number) {
	let name = scan.name !== stemOf(scan.file) && !names.has(scan.name) ? scan.name : `${scan.name} ${number}`;
	for (let again = 2; names.has(name); again++) name = `${scan.name} ${number} ${again}`;
	names.add(name);
	const isShared = first?.wavelengths.every((nm, i) => nm === scan.wavelengths[i]) ?? false;
	return {
		...scan,
		name,
		wavelengths: isShared && first ? first.wavelengths : scan.wavelengths
	};
}
// ../../work/wt-reader/src/readers/table.ts
/** Tables of text cells (RFC 4180, with any of four delimiters). */
/** More cells than any table of samples has: what has more is left out, not read in part. */
var MOST_CELLS = 6e6;
/** Rows that are told of one by one; of further ones only the number is told. */
var MOST_TOLD$1 = 50;
/**
* The table whose heading begins at byte `start`, on line `firstLine`.
*
* Cells are trimmed and NFC. Short rows are filled with empty cells; a row with more cells than
* the heading is left out, as is a last row that breaks off.
*/
function readTable(file, bytes, start, firstLine, delimiter) {
	if (cellsAbout(bytes, start, delimiter) > MOST_CELLS) return leftOut(file, firstLine, `a table of over ${MOST_CELLS / 1e6} million cells`, "split it, or leave out the columns that are not used");
	const text = untrimmedTextOf(bytes, start, bytes.length);
	const isAscii = text.length === bytes.length - start;
	const rows = delimiter === 32 ? rowsAtBlanks(text, firstLine) : rowsAt(text, String.fromCharCode(delimiter), firstLine, isAscii);
	const header = uniqueHeader(rows[0]?.cells ?? []);
	const endsWhole = bytes[bytes.length - 1] === 10 || bytes[bytes.length - 1] === 13;
	const misfits = [];
	const kept = [];
	for (let index = 1; index < rows.length; index++) {
		const row = rows[index];
		const { cells } = row;
		while (cells.length > header.length && cells[cells.length - 1] === "") cells.pop();
		const breaksOff = index === rows.length - 1 && !endsWhole && cells.length < header.length;
		if (cells.length > header.length || breaksOff) {
			misfits.push({
				row,
				breaksOff
			});
			continue;
		}
		while (cells.length < header.length) cells.push("");
		kept.push(row);
	}
	const table = {
		file,
		header,
		rows: kept.map((row) => row.cells),
		lines: kept.map((row) => row.line)
	};
	return {
		...nothingIn("table", misfitProblems(file, misfits, header.length)),
		tables: [table]
	};
}
function misfitProblems(file, misfits, columns) {
	const problems = misfits.slice(0, MOST_TOLD$1).map(({ row, breaksOff }) => ({
		file,
		line: row.line,
		problem: `a row of ${row.cells.length} cells under a heading of ${columns}`,
		done: breaksOff ? "row left out; the file breaks off, copy it again" : "row left out; put cells that hold the delimiter in double quotes"
	}));
	const more = misfits.length - problems.length;
	if (more > 0) {
		const problem = `${more} more rows that do not fit under the heading of ${columns}`;
		problems.push({
			file,
			line: misfits[MOST_TOLD$1].row.line,
			problem,
			done: "rows left out; the columns may be parted by another sign than the table’s"
		});
	}
	return problems;
}
function uniqueHeader(cells) {
	const end = cells.findLastIndex((cell) => cell !== "") + 1;
	const taken = /* @__PURE__ */ new Set();
	const times = /* @__PURE__ */ new Map();
	return cells.slice(0, end).map((cell, index) => {
		const plain = cell === "" ? `column ${index + 1}` : cell;
		let name = plain;
		let again = times.get(plain) ?? 1;
		while (taken.has(name)) name = `${plain} ${++again}`;
		times.set(plain, again);
		taken.add(name);
		return name;
	});
}
/** How many cells there are, quotes not heeded. */
function cellsAbout(bytes, start, delimiter) {
	let count = 0;
	for (let i = start; i < bytes.length; i++) if (bytes[i] === delimiter || bytes[i] === 10 || bytes[i] === 13) count++;
	return count;
}
function rowsAtBlanks(text, firstLine) {
	const rows = [];
	let line = firstLine;
	for (const written of text.split(/\r\n|\n|\r/)) {
		const cells = written.trim().split(/\s+/);
		if (cells.length > 1 || cells[0] !== "") rows.push({
			cells,
			line
		});
		line++;
	}
	return rows;
}
function rowsAt(text, delimiter, firstLine, isAscii) {
	const rows = [];
	let cells = [];
	let line = firstLine;
	let rowLine = firstLine;
	let isFilled = false;
	const endRow = () => {
		if (isFilled) rows.push({
			cells,
			line: rowLine
		});
		cells = [];
		isFilled = false;
		rowLine = line;
	};
	let i = 0;
	while (i <= text.length) {
		const start = i;
		while (text.charCodeAt(i) === 32) i++;
		const quoted = text.charCodeAt(i) === 34 ? quotedCell(text, i, delimiter) : null;
		i = quoted?.end ?? cellEnd(text, start, delimiter);
		const written = quoted?.text ?? text.slice(start, i);
		const tidy = isAscii ? trimmed(written) : written.trim().normalize("NFC");
		if (tidy !== "") isFilled = true;
		cells.push(tidy);
		line += quoted?.newlines ?? 0;
		if (i >= text.length) break;
		if (text[i] === delimiter) i++;
		else {
			i += text[i] === "\r" && text[i + 1] === "\n" ? 2 : 1;
			line++;
			endRow();
		}
	}
	endRow();
	return rows;
}
/** A text of ASCII without blanks around it; most have none, and that is quickly seen. */
function trimmed(text) {
	if (text === "") return text;
	return text.charCodeAt(0) > 32 && text.charCodeAt(text.length - 1) > 32 ? text : text.trim();
}
/** A cell whose quotes open at `open`, up to the next delimiter or line; null where none close. */
function quotedCell(text, open, delimiter) {
	const close = closingQuote(text, open + 1);
	if (close < 0) return null;
	const inner = text.slice(open + 1, close);
	return {
		text: inner.replaceAll("\"\"", "\""),
		end: cellEnd(text, close + 1, delimiter),
		newlines: inner.split(/\r\n|\n|\r/).length - 1
	};
}
/** A quoted cell longer than this has lost its closing quote: it is read as plain text instead. */
var LONGEST_QUOTED = 1e5;
function closingQuote(text, start) {
	const limit = Math.min(text.length, start + LONGEST_QUOTED);
	for (let i = start; i < limit; i++) {
		if (text[i] !== "\"") continue;
		if (text[i + 1] !== "\"") return i;
		i++;
	}
	return -1;
}
function cellEnd(text, start, delimiter) {
	const sign = delimiter.charCodeAt(0);
	let i = start;
	for (; i < text.length; i++) {
		const code = text.charCodeAt(i);
		if (code === sign || code === 10 || code === 13) return i;
	}
	return i;
}
// ../../work/wt-reader/src/readers/values.ts
/** Reads a record of one value a line, whose wavelengths stand in a companion file. */
/** A record of the public library layout, or `companion` where the file is one itself. */
function readValues(text, head, format) {
	const column = readValueColumn(text.bytes, head, format);
	const { body, title, values } = column;
	if (companionKind(column) !== null) return nothingIn("companion");
	const fault = body.rowFault ?? body.cellFaults.get(0);
	if (fault !== void 0 && fault !== null) return rowProblem(text, fault, format);
	const count = values.length;
	if (count < 10) {
		const problem = `only ${count === 1 ? "one value" : `${count} values`} and no wavelengths`;
		return leftOut(text.file, body.lines[0] ?? null, problem, "export the whole scan again");
	}
	if (text.companions.isPartial) return {
		...nothingIn("unknown"),
		wantsCompanions: true
	};
	const record = {
		path: text.file,
		title
	};
	const axis = companionFor(text.companions.axes, record, count);
	if (axis === null) return leftOut(text.file, null, `${count} values and no wavelengths: no single file of ${count} wavelengths stands beside it or in a folder above`, "put the file of wavelengths that came with the library there, or check that the record is whole");
	const bandwidths = companionFor(text.companions.bandwidths, record, count);
	return {
		...assemble({
			file: text.file,
			axis: axis.values,
			companion: axis,
			...bandwidths === null ? {} : { bandwidths },
			lineOf: (channel) => `channel ${channel + 1} of ${axis.file}`,
			lineNumber: () => null,
			scans: [{
				name: stemOf(text.file),
				values,
				metadata: title === "" ? {} : { title },
				line: null
			}],
			wavelengthHint: "",
			reflectanceHint: title,
			layout: {
				name: "one value a line",
				decimal: decimalSign(format.decimal),
				encoding: text.encoding
			}
		}, text.overrides),
		look: lookOf(["one value a line", String(count)])
	};
}
// ../../work/wt-reader/src/readers/wide.ts
/** Reads wide tables: a row a scan, headings that are wavelengths, and other columns as metadata. */
var WAVELENGTH_CELL = /^([\p{L}_ ]{0,16}?)[ _]?(\d+(?:[.,]\d+)?)\s*([\p{L}µμ_ ()⁻¹-]{0,12})$/u;
/** The longest run of ten or more headings that are wavelengths alike written, rising or falling. */
function wideHeading(cells) {
	let best = null;
	for (let from = 0; from < cells.length;) {
		const first = WAVELENGTH_CELL.exec(cells[from]);
		const axis = [];
		let to = from;
		for (; first !== null && to < cells.length; to++) {
			const match = WAVELENGTH_CELL.exec(cells[to]);
			if (match === null || match[1] !== first[1] || match[3] !== first[3]) break;
			const value = Number(match[2].replace(",", "."));
			const n = axis.length;
			if (n > 1 && (value - axis[n - 1]) * (axis[1] - axis[0]) <= 0) break;
			axis.push(value);
		}
		const length = to - from;
		if (first !== null && length > (best === null ? 9 : best.to - best.from)) {
			const affix = `${first[1]} ${first[3]}`.trim();
			const candidate = {
				cells,
				from,
				to,
				axis: Float64Array.from(axis),
				affix
			};
			if (isAxis(candidate.axis)) best = candidate;
		}
		from = Math.max(from + 1, to);
	}
	return best;
}
/**
* A column outside the run whose heading is a wavelength or was one before it was damaged, or -1:
* its channel would be lost, and read as metadata.
*/
function strayHeading({ cells, from, to, affix }) {
	return cells.findIndex((cell, column) => {
		if (column >= from && column < to) return false;
		const isBeside = column === from - 1 || column === to;
		const match = WAVELENGTH_CELL.exec(cell);
		if (match !== null && `${match[1]} ${match[3]}`.trim() === affix && (isBeside || match[2].length > 2)) return true;
		const digits = cell.replace(/\D/g, "").length;
		return isBeside && (/^\d/.test(cell) || digits >= 2 && 2 * digits >= cell.length);
	});
}
/** Between 100 nm and 100 µm in any of the units, over more than a twentieth of the first. */
function isAxis(axis) {
	const low = Math.min(axis[0], axis[axis.length - 1]);
	const high = Math.max(axis[0], axis[axis.length - 1]);
	return (high <= 100 ? low >= .1 : low >= 100 && high <= 1e5) && high / low > 1.05;
}
/** Rows that are assembled together: their values stand in memory as doubles meanwhile. */
var BATCH = 64;
/** Rows that are told of one by one; of further ones only the number is told. */
var MOST_TOLD = 500;
/** Reads the rows under a wide heading. A row that cannot be read is left out alone. */
function readWide(text, heading, line, delimiter, metadata) {
	const stray = strayHeading(heading);
	if (stray >= 0) {
		const problem = `the heading ${quoted(heading.cells[stray])} of column ${stray + 1} is no wavelength in order`;
		return leftOut(text.file, line.number, problem, "correct the heading or export the table again");
	}
	const reader = new WideReader(text, heading, delimiter, metadata);
	reader.read(nextLine(text.bytes, line.end), line.number + 1);
	const look = lookOf([
		"a row a scan",
		delimiterName(delimiter) ?? "",
		axisWords(heading.axis),
		heading.affix
	]);
	return {
		...reader.result(line.number),
		look
	};
}
var WideReader = class {
	text;
	heading;
	delimiter;
	metadata;
	cells = new CellSplitter();
	problems = [];
	/** Problems that were too many to be told of one by one, and the first of them. */
	untold = 0;
	firstUntold = null;
	scans = [];
	batch = [];
	first = null;
	decimal;
	row = 0;
	constructor(text, heading, delimiter, metadata) {
		this.text = text;
		this.heading = heading;
		this.delimiter = delimiter;
		this.metadata = metadata;
		this.decimal = text.overrides.decimal === "," ? 44 : 46;
	}
	read(start, firstLine) {
		const { bytes } = this.text;
		let line = firstLine;
		let decided = this.text.overrides.decimal !== void 0;
		for (let at = start; at < bytes.length; line++) {
			const end = lineEnd(bytes, at);
			if (!isBlank(bytes, at, end)) {
				const found = end - at > 1e6 ? -1 : this.cells.split(bytes, at, end, this.delimiter);
				if (!decided && found === this.heading.cells.length) {
					this.decimal = this.decimalOfRow();
					decided = true;
				}
				this.addRow(at, end, line, found);
			}
			at = nextLine(bytes, end);
		}
		this.assembleBatch();
	}
	result(headingLine) {
		const { file } = this.text;
		if (this.firstUntold !== null) {
			const problem = `${this.untold} more rows that cannot be read`;
			this.problems.push({
				file,
				line: this.firstUntold.line,
				problem,
				done: "their scans were left out; correct what the rows before have wrong"
			});
		}
		if (this.first !== null) {
			const kind = this.scans.length > 0 ? "scans" : "unknown";
			return {
				...this.first,
				kind,
				scans: this.scans,
				problems: this.problems
			};
		}
		if (this.problems.length === 0) this.problems.push({
			file,
			line: headingLine,
			problem: "a heading of wavelengths and no rows under it",
			done: "left out; the file may be broken off, copy it again"
		});
		return {
			kind: "unknown",
			scans: [],
			tables: [],
			tracks: [],
			layout: null,
			problems: this.problems
		};
	}
	tell(problem) {
		if (this.problems.length < MOST_TOLD) {
			this.problems.push(problem);
			return;
		}
		this.untold++;
		this.firstUntold ??= problem;
	}
	/** A comma where more cells of this row are numbers with one. */
	decimalOfRow() {
		const { bytes } = this.text;
		let points = 0;
		let commas = 0;
		for (let c = this.heading.from; c < this.heading.to; c++) {
			if (!Number.isNaN(parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], 46))) points++;
			if (!Number.isNaN(parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], 44))) commas++;
		}
		return commas > points ? 44 : 46;
	}
	addRow(start, end, line, found) {
		const { bytes, file } = this.text;
		const { from, to } = this.heading;
		const width = this.heading.cells.length;
		this.row++;
		const isLast = end >= bytes.length;
		const format = {
			delimiter: this.delimiter,
			decimal: this.decimal,
			columns: width
		};
		const lastCell = this.cells.starts[width - 1];
		const isCutOff = isLast && found === width && to === width && lastCell === end;
		const refuse = (cellStart, cellEnd, kind) => {
			const fault = {
				line,
				kind,
				start: cellStart,
				end: cellEnd,
				found: isCutOff ? found - 1 : found,
				column: -1,
				isLast
			};
			const { problem, advice } = rowFaultWords(this.text, fault, format);
			const done = `the scan of this row was left out; ${advice}`;
			this.tell({
				file,
				line,
				problem,
				done
			});
		};
		if (isCutOff || found !== width && !this.hasOnlyEmptyExtras(found, width)) {
			refuse(start, end, found < 0 ? "long" : "cells");
			return;
		}
		const unnamed = this.valueWithoutHeading();
		if (unnamed >= 0) {
			const problem = `a value in column ${unnamed + 1}, beside the wavelengths and without a heading`;
			this.tell({
				file,
				line,
				problem,
				done: "the scan of this row was left out; give the column its heading"
			});
			return;
		}
		const values = new Float64Array(to - from);
		for (let c = from; c < to; c++) {
			const value = parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], this.decimal);
			values[c - from] = isDeleted(value) ? NaN : value;
			if (!Number.isNaN(value) || isGapMark(bytes, this.cells.starts[c], this.cells.ends[c])) continue;
			refuse(this.cells.starts[c], this.cells.ends[c], "not a number");
			return;
		}
		const metadata = this.rowMetadata();
		this.batch.push({
			name: this.rowName(metadata),
			values,
			metadata,
			line
		});
		if (this.batch.length >= BATCH) this.assembleBatch();
	}
	/** A filled column next to the axis whose heading is empty: its wavelength may be lost. Or -1. */
	valueWithoutHeading() {
		const { cells, from, to } = this.heading;
		const beside = [from - 1, to].filter((column) => column > 0 && column < cells.length);
		const isFilled = (column) => this.cells.ends[column] > this.cells.starts[column];
		return beside.find((column) => cells[column] === "" && isFilled(column)) ?? -1;
	}
	hasOnlyEmptyExtras(found, width) {
		for (let c = width; c < found; c++) if (this.cells.ends[c] > this.cells.starts[c]) return false;
		return found >= width;
	}
	rowMetadata() {
		const { cells, from, to } = this.heading;
		const metadata = { ...this.metadata };
		for (let c = 0; c < cells.length; c++) {
			if (c >= from && c < to) continue;
			const value = textOf$1(this.text.bytes, this.cells.starts[c], this.cells.ends[c]);
			if (value === "") continue;
			const heading = cells[c] === "" ? c === 0 ? "name" : `column ${c + 1}` : cells[c];
			metadata[heading] = value.replaceAll("\"\"", "\"");
		}
		return metadata;
	}
	rowName(metadata) {
		const known = recognise(metadata);
		const depth = known.from ?? known.depth;
		if (known.name !== null) return known.name;
		if (known.hole !== null && depth !== null) return `${known.hole} ${depth}`;
		if (known.sample !== null) return known.sample;
		const { cells, from } = this.heading;
		return from > 0 && cells[0] !== "" && /wave|λ|\bnm\b/iu.test(cells[0]) && metadata[cells[0]] || `${stemOf(this.text.file)} ${this.row}`;
	}
	/** Turns the rows so far into scans, in the units that the first rows decided. */
	assembleBatch() {
		if (this.batch.length === 0) return;
		const result = assemble(this.rawScans(), {
			...this.text.overrides,
			...unitsOf(this.first)
		});
		this.batch = [];
		for (const problem of result.problems) this.tell(problem);
		if (this.first === null && result.layout !== null) this.first = result;
		const shared = this.first?.scans[0]?.wavelengths ?? this.scans[0]?.wavelengths;
		for (const scan of result.scans) this.scans.push(shared === void 0 ? scan : {
			...scan,
			wavelengths: shared
		});
	}
	rawScans() {
		const { axis, from, affix, cells } = this.heading;
		return {
			file: this.text.file,
			axis,
			lineOf: (channel) => `column ${from + channel + 1}`,
			lineNumber: () => null,
			scans: this.batch,
			wavelengthHint: `${affix} ${from > 0 && /wave/iu.test(cells[0]) ? cells[0] : ""}`,
			reflectanceHint: Object.entries(this.metadata).filter(([key]) => /refl|^y|unit/iu.test(key)).map(([key, value]) => `${key} ${value}`).join(" "),
			layout: {
				name: "a row a scan",
				decimal: decimalSign(this.decimal),
				delimiter: delimiterName(this.delimiter),
				encoding: this.text.encoding
			}
		};
	}
};
function unitsOf(first) {
	if (first === null || first.layout === null) return {};
	const { wavelengthUnit, reflectanceUnit } = first.layout;
	return {
		wavelengthUnit,
		reflectanceUnit
	};
}
// ../../work/wt-reader/src/readers/text.ts
/** Reads any table of text: finds what it is and hands it to its reader. */
/** Scans or a table out of a text, or a problem that says why there are none. */
function readText(text) {
	const alone = readOneTable(text);
	return alone.kind !== "unknown" || alone.problems.length === 0 ? alone : readStacked(text, readOneTable) ?? alone;
}
function readOneTable(text) {
	const head = readHead(text.bytes);
	if (head.tooLong !== null) {
		const problem = `a line of over ${LONGEST_LINE / 1e6} million bytes, which is no table`;
		return leftOut(text.file, head.tooLong, problem, "export the scan again as text, a line a wavelength");
	}
	if (head.lines.length === 0) return leftOut(text.file, null, "the file is empty", "copy it again from the instrument");
	return head.numeric < 0 ? readTextRows(text, head) : readNumberRows(text, head);
}
function readNumberRows(text, head) {
	const { bytes } = text;
	const sign = text.overrides.decimal;
	const format = numericFormat(bytes, head.lines.slice(head.numeric), sign === void 0 ? void 0 : decimalByte(sign));
	const wide = findWide(text, head.lines.slice(0, head.numeric + 1), format.delimiter);
	if (wide !== null) return readWideUnder(text, head, wide, format.delimiter);
	const first = bodyStart(bytes, head, format);
	if (format.columns === 1) return readValues(text, {
		...head,
		numeric: first
	}, format);
	const preamble = readPreamble(bytes, head.lines.slice(0, first), format);
	const line = head.lines[first];
	if (isSampleTable(text, line, format, preamble)) {
		const heading = head.lines[preamble.headingLine];
		return readTable(text.file, bytes, heading.start, heading.number, format.delimiter);
	}
	if (preamble.damaged >= 0) return damagedLine(text, head.lines[preamble.damaged]);
	return readColumns(text, line.start, line.number, format, preamble);
}
/**
* The first row: the first line from where numbers begin that has as many cells as the others and
* a wavelength; or further up where lines begin with a number too, so that a bad cell in the first
* rows is seen rather than taken for a heading.
*/
function bodyStart(bytes, head, format) {
	const isRow = ({ start, end }) => cells.split(bytes, start, end, format.delimiter) === format.columns && (format.columns === 1 || !isGapMark(bytes, cells.starts[0], cells.ends[0]));
	let first = head.lines.findIndex((line, i) => i >= head.numeric && isRow(line));
	if (first < 0) return head.numeric;
	const startsWithNumber = (line) => isRow(line) && !Number.isNaN(parseNumber(bytes, cells.starts[0], cells.ends[0], format.decimal));
	while (first > 0 && format.columns > 1 && startsWithNumber(head.lines[first - 1])) first--;
	return first;
}
/** The line of wavelengths of a wide table, the lowest first. */
function findWide(text, lines, delimiter) {
	for (let index = lines.length - 1; index >= 0; index--) {
		const heading = wideHeading(cellTexts(text.bytes, lines[index], delimiter));
		if (heading !== null) return {
			heading,
			index
		};
	}
	return null;
}
/** Splits one line after another; nothing is kept in it. */
var cells = new CellSplitter();
function cellTexts(bytes, line, delimiter) {
	const count = cells.split(bytes, line.start, line.end, delimiter);
	const texts = [];
	for (let c = 0; c < count; c++) texts.push(textOf$1(bytes, cells.starts[c], cells.ends[c]));
	return texts;
}
function readWideUnder(text, head, { heading, index }, delimiter) {
	const metadata = new MetadataCollector();
	for (const line of head.lines.slice(0, index)) metadata.addLine(textOf$1(text.bytes, line.start, line.end), pairDelimiter(delimiter));
	return readWide(text, heading, head.lines[index], delimiter, metadata.record());
}
/**
* Whether rows of numbers under a heading are samples rather than wavelengths: no heading names
* wavelengths, and one names a place or the first column is no plausible axis.
*/
function isSampleTable(text, line, format, preamble) {
	const { headings } = preamble;
	if (headings === null || headings.some(isWavelengthHeading)) return false;
	if (![
		32,
		9,
		59,
		44
	].includes(format.delimiter)) return false;
	if (headings.filter(isPlaceHeading).length > 1) return true;
	if (headings[0] === "") return false;
	const body = readBody(text.bytes, line.start, line.number, format);
	if (body.rowFault !== null || body.cellFaults.has(0)) return true;
	return !isPlausibleAxis(body.columns[isChannelHeading(headings[0]) ? 1 : 0]);
}
/** Thirty or more wavelengths in order, between 200 nm and 30 µm. */
function isPlausibleAxis(axis) {
	if (axis.length < 30 || axis.some(Number.isNaN) || axisFault(axis, String) !== null) return false;
	const { unit } = decideWavelengthUnit(axis, null);
	const ends = [toNanometres(axis[0], unit), toNanometres(axis[axis.length - 1], unit)];
	return Math.min(...ends) >= 200 && Math.max(...ends) <= 3e4;
}
function readTextRows(text, head) {
	const format = textFormat(text.bytes, head.lines);
	if (format !== null) {
		const wide = findWide(text, head.lines.slice(0, format.first + 1), format.delimiter);
		if (wide !== null) return readWideUnder(text, head, wide, format.delimiter);
		const heading = head.lines[format.first];
		const cells = cellTexts(text.bytes, heading, format.delimiter);
		if (cells.some(isWavelengthHeading)) return notNumeric(text, head, format.first + 1);
		if (!Number.isNaN(Number(cells[0] || NaN))) return notNumeric(text, head, format.first);
		if (isTableHeading(cells) && isTableOfPlaces(text, head, heading, format.delimiter)) return readTable(text.file, text.bytes, heading.start, heading.number, format.delimiter);
	}
	return leftOut(text.file, null, "no table of wavelengths and reflectance, and no sample table", "if it should hold scans, export them as text; if samples, head one column Sample, East or the like");
}
/** Headings are words, at most a few of them missing, and at least half of them start with a letter. */
function isTableHeading(cells) {
	const filled = cells.filter((cell) => cell !== "");
	const words = filled.filter((cell) => /\p{L}/u.test(cell) && cell.length <= 80);
	return filled.length >= 2 && words.length === filled.length && filled.length >= .7 * cells.length;
}
/**
* Whether a table can serve, by its first lines: it has a row, and a heading is known or one of
* three or more columns holds numbers.
*/
function isTableOfPlaces({ file, bytes }, { lines }, heading, delimiter) {
	const end = nextLine(bytes, lines[lines.length - 1].end);
	const table = readTable(file, bytes.subarray(0, end), heading.start, heading.number, delimiter).tables.at(0);
	if (table === void 0 || table.rows.length === 0) return false;
	if (table.header.some((name) => isPlaceHeading(name) || fieldOf(name) !== null)) return true;
	return table.header.some((_, column) => {
		const numbers = table.rows.map((row) => Number(row[column].replace(",", ".") || NaN));
		const present = numbers.filter((value) => !Number.isNaN(value));
		return table.header.length > 2 && present.length >= .5 * numbers.length;
	});
}
function damagedLine(text, line) {
	const problem = `${quoted(textOf$1(text.bytes, line.start, Math.min(line.end, line.start + 200)))} stands just above the numbers and is neither their heading nor a row`;
	return leftOut(text.file, line.number, problem, "correct the line or export the scan again");
}
function notNumeric(text, head, index) {
	const line = head.lines[Math.min(index, head.lines.length - 1)];
	const row = quoted(textOf$1(text.bytes, line.start, Math.min(line.end, line.start + 200)));
	return leftOut(text.file, line.number, `${row} stands where numbers should`, "export the scan again as numbers");
}
// ../../work/wt-reader/src/readers/read-file.ts
/** Reads one file, whatever it is, by looking at its bytes. */
/** Larger than ten thousand scans in one text. */
var MOST_BYTES$1 = 5e8;
/** No companions. */
var NO_COMPANIONS = {
	axes: [],
	bandwidths: []
};
/** None yet: other files have not been looked at. */
var COMPANIONS_UNKNOWN = {
	...NO_COMPANIONS,
	isPartial: true
};
/**
* All that a file holds: scans, tables, tracks; or its kind where others read it; or problems.
*
* Never throws for what a file contains. `overrides` say how its numbers are to be understood;
* `corrections` say so of all files alike, and are sought by the file's look.
*/
function readFile$1(file, companions = NO_COMPANIONS, overrides = {}, corrections = []) {
	const signature = signatureOf(file.bytes);
	if (signature === "zip" && file.bytes.length <= MOST_BYTES$1) {
		const readOne = (inner, around) => readOneOf(inner, around, overrides, corrections);
		return readArchive(file, companions, readOne);
	}
	return readOneOf(file, companions, overrides, corrections, signature);
}
function readOneOf(file, companions, overrides, corrections, signature = signatureOf(file.bytes)) {
	const found = (signature === "other" && Object.keys(overrides).length === 0 ? readFamiliar(file) : null) ?? readOnce(file, signature, companions, overrides);
	const correction = correctionFor(found.look?.like, corrections);
	if (correction === void 0) return found;
	const { look } = found;
	return {
		...readOnce(file, signature, companions, overridesOf(correction)),
		look,
		correction
	};
}
function readOnce(file, signature, companions, overrides) {
	const { path, bytes } = file;
	if (bytes.length > MOST_BYTES$1) return leftOut(path, null, `a file of ${Math.round(bytes.length / 1e6)} MB`, "split it into files below 500 MB");
	switch (signature) {
		case "empty": return leftOut(path, null, "the file is empty", "copy it again from the instrument");
		case "tiff":
		case "ascii grid": return nothingIn("raster");
		case "photo":
		case "image": return nothingIn("photo");
		case "geojson": return nothingIn("geojson");
		case "json": return leftOut(path, null, "JSON that is no GeoJSON", "nothing to do unless it should be a layer");
		case "compressed": return leftOut(path, null, "a compressed file that is no zip", "unpack it and add what is in it");
		case "document": return leftOut(path, null, "a document, not text", "save its table as CSV");
		case "zip": return leftOut(path, null, "a zip archive in another", "unpack the outer one");
		case "exchange": return readAnyText(file, companions, overrides, readJcamp);
		case "xml": return readXml(file);
		case "other": return readAnyText(file, companions, overrides, readText);
	}
}
function readXml(file) {
	const decoded = decodeText(file.bytes);
	if (decoded === null) return binary(file);
	return readGpx(file, new TextDecoder().decode(decoded.bytes));
}
function readAnyText(file, companions, overrides, read) {
	const decoded = decodeText(file.bytes, overrides.encoding);
	if (decoded === null) return binary(file);
	const { bytes, encoding } = decoded;
	return read({
		file: file.path,
		bytes,
		encoding,
		companions,
		overrides
	});
}
function binary({ path }) {
	return leftOut(path, null, "not text but binary data of a kind unknown here", "export the scan as text from the instrument’s own program");
}
// ../../work/wt-reader/src/layers/sha256.ts
/** SHA-256 (FIPS 180-4, section 6.2), synchronous and the same in window, worker and Node. */
/** Fractional parts of the cube roots of the first 64 primes (FIPS 180-4, section 4.2.2). */
var K = fractions(64, Math.cbrt);
/** Fractional parts of the square roots of the first 8 primes (section 5.3.3). */
var H = fractions(8, Math.sqrt);
/** The digest of some bytes as 64 lower-case hexadecimal digits. */
function sha256(bytes) {
	const state = Int32Array.from(H);
	const schedule = /* @__PURE__ */ new Int32Array(64);
	const whole = bytes.length - bytes.length % 64;
	compress(state, schedule, bytes, 0, whole);
	const tail = padded(bytes, whole);
	compress(state, schedule, tail, 0, tail.length);
	return Array.from(state, (word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}
/** The last partial block with its one bit, zeros and the length in bits (section 5.1.1). */
function padded(bytes, from) {
	const rest = bytes.length - from;
	const tail = new Uint8Array(rest < 56 ? 64 : 128);
	tail.set(bytes.subarray(from));
	tail[rest] = 128;
	const view = new DataView(tail.buffer);
	view.setUint32(tail.length - 8, Math.floor(bytes.length / 536870912));
	view.setUint32(tail.length - 4, bytes.length << 3 >>> 0);
	return tail;
}
function compress(state, w, bytes, from, to) {
	for (let at = from; at < to; at += 64) {
		for (let t = 0, i = at; t < 16; t++, i += 4) w[t] = bytes[i] << 24 | bytes[i + 1] << 16 | bytes[i + 2] << 8 | bytes[i + 3];
		for (let t = 16; t < 64; t++) {
			const x = w[t - 15];
			const y = w[t - 2];
			const s0 = (x >>> 7 | x << 25) ^ (x >>> 18 | x << 14) ^ x >>> 3;
			const s1 = (y >>> 17 | y << 15) ^ (y >>> 19 | y << 13) ^ y >>> 10;
			w[t] = w[t - 16] + s0 + w[t - 7] + s1 | 0;
		}
		rounds(state, w);
	}
}
/** One block's 64 rounds, eight at a time so that no word need be moved along. */
function rounds(state, w) {
	let a = state[0];
	let b = state[1];
	let c = state[2];
	let d = state[3];
	let e = state[4];
	let f = state[5];
	let g = state[6];
	let h = state[7];
	for (let t = 0; t < 64; t += 8) {
		h = h + big1(e) + (g ^ e & (f ^ g)) + K[t] + w[t] | 0;
		d = d + h | 0;
		h = h + big0(a) + (a & b ^ c & (a ^ b)) | 0;
		g = g + big1(d) + (f ^ d & (e ^ f)) + K[t + 1] + w[t + 1] | 0;
		c = c + g | 0;
		g = g + big0(h) + (h & a ^ b & (h ^ a)) | 0;
		f = f + big1(c) + (e ^ c & (d ^ e)) + K[t + 2] + w[t + 2] | 0;
		b = b + f | 0;
		f = f + big0(g) + (g & h ^ a & (g ^ h)) | 0;
		e = e + big1(b) + (d ^ b & (c ^ d)) + K[t + 3] + w[t + 3] | 0;
		a = a + e | 0;
		e = e + big0(f) + (f & g ^ h & (f ^ g)) | 0;
		d = d + big1(a) + (c ^ a & (b ^ c)) + K[t + 4] + w[t + 4] | 0;
		h = h + d | 0;
		d = d + big0(e) + (e & f ^ g & (e ^ f)) | 0;
		c = c + big1(h) + (b ^ h & (a ^ b)) + K[t + 5] + w[t + 5] | 0;
		g = g + c | 0;
		c = c + big0(d) + (d & e ^ f & (d ^ e)) | 0;
		b = b + big1(g) + (a ^ g & (h ^ a)) + K[t + 6] + w[t + 6] | 0;
		f = f + b | 0;
		b = b + big0(c) + (c & d ^ e & (c ^ d)) | 0;
		a = a + big1(f) + (h ^ f & (g ^ h)) + K[t + 7] + w[t + 7] | 0;
		e = e + a | 0;
		a = a + big0(b) + (b & c ^ d & (b ^ c)) | 0;
	}
	state[0] += a;
	state[1] += b;
	state[2] += c;
	state[3] += d;
	state[4] += e;
	state[5] += f;
	state[6] += g;
	state[7] += h;
}
/** Σ0 and Σ1 of section 4.1.2. */
function big0(a) {
	return (a >>> 2 | a << 30) ^ (a >>> 13 | a << 19) ^ (a >>> 22 | a << 10);
}
function big1(e) {
	return (e >>> 6 | e << 26) ^ (e >>> 11 | e << 21) ^ (e >>> 25 | e << 7);
}
/** The first 32 bits of the fractional parts of the primes' roots. */
function fractions(count, root) {
	const words = new Int32Array(count);
	for (let n = 2, found = 0; found < count; n++) {
		if (!isPrime(n)) continue;
		words[found++] = Math.floor(root(n) % 1 * 4294967296);
	}
	return words;
}
function isPrime(n) {
	for (let divisor = 2; divisor * divisor <= n; divisor++) if (n % divisor === 0) return false;
	return true;
}
// ../../work/wt-reader/src/jobs/digest.ts
/** SHA-256 by the platform, which computes it off this thread and several times as fast as ours. */
/**
* The digest of some bytes as 64 lower-case hexadecimal digits. Our own computes it where the
* platform's is kept from pages that came over an open network (Web Cryptography API, section 4).
*/
async function digestOf(bytes) {
	const subtle = globalThis.crypto?.subtle;
	if (!subtle) return sha256(bytes);
	const digest = new Uint8Array(await subtle.digest("SHA-256", bytes));
	return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
// ../../work/wt-reader/src/jobs/read.ts
/** A platform that opens nothing. */
var NO_PLATFORM = {
	open: () => {
		throw new Error("this worker cannot open files");
	},
	digest: digestOf
};
/** Reads files one after another; what is wrong with one never stops the others. */
async function read(input, platform = NO_PLATFORM) {
	const gathering = new Gathering();
	const ground = [];
	const unread = [];
	const knownOf = fieldsOnce();
	let wantsCompanions = false;
	for (const given of input.files) {
		const file = opened(given, platform);
		if ("problem" in file) {
			unread.push(file);
			continue;
		}
		const digest = platform.digest(file.bytes);
		const result = readFile$1(file, input.companions, {}, input.corrections);
		if (result.wantsCompanions) wantsCompanions = true;
		const { kind = "unknown", layout, look, correction, tables, tracks, problems } = result;
		if (kind === "raster" || kind === "geojson") {
			const bytes = file === given ? file.bytes : file.bytes.slice();
			ground.push({
				path: file.path,
				bytes
			});
		}
		const scans = result.scans.map(({ name, metadata, wavelengths, reflectance }) => {
			const axis = gathering.add(wavelengths, reflectance);
			return {
				name,
				metadata,
				known: knownOf(metadata, correction),
				axis
			};
		});
		const { path, bytes } = file;
		gathering.files.push({
			path,
			kind,
			size: bytes.length,
			layout,
			look,
			correction,
			scans,
			tables,
			tracks,
			problems
		});
		gathering.digests.push(digest);
	}
	return {
		...await gathering.joined(),
		ground,
		unread,
		wantsCompanions
	};
}
/**
* `recognise`, which looks but once at metadata that many scans share; so these share what is
* known of them, and in a message it stands once.
*/
function fieldsOnce() {
	const known = /* @__PURE__ */ new Map();
	return (metadata, correction) => {
		let fields = known.get(metadata);
		fields ??= recognise(metadata, correction?.date_order);
		known.set(metadata, fields);
		return fields;
	};
}
/** A file's bytes, or why they cannot be had: it may have gone, or be locked. */
function opened(given, platform) {
	if ("bytes" in given) return given;
	try {
		const { path, size, at } = given;
		return {
			path,
			bytes: isPacked(at) ? unpacked(at) : platform.open(at, size)
		};
	} catch (error) {
		return unreadProblem(given.path, error);
	}
}
function isPacked(at) {
	return typeof at === "object" && "body" in at;
}
function unpacked(packed) {
	const bytes = unpackFile(packed);
	if (typeof bytes === "string") throw new Error(bytes);
	return bytes;
}
/** What is told of a file whose bytes cannot be had. */
function unreadProblem(file, error) {
	return {
		file,
		line: null,
		problem: `it cannot be read: ${whyUnread(error)}`,
		done: "left out; check the file"
	};
}
/** The system's code where it gives one: its message would tell where on the disk the file stands. */
function whyUnread(error) {
	if (!(error instanceof Error)) return String(error);
	return "code" in error && typeof error.code === "string" ? error.code : error.message;
}
/** Files and spectra on their way into one message. */
var Gathering = class {
	files = [];
	digests = [];
	#axes = [];
	#spectra = [];
	/** Arrays that were met before, which readers share among scans and files. */
	#met = /* @__PURE__ */ new Map();
	/** Takes a spectrum. @returns the index of its axis */
	add(wavelengths, reflectance) {
		this.#spectra.push(reflectance);
		let axis = this.#met.get(wavelengths);
		if (axis === void 0) {
			axis = this.#axes.findIndex((known) => sameNumbers(known, wavelengths));
			if (axis < 0) axis = this.#axes.push(wavelengths.slice()) - 1;
			this.#met.set(wavelengths, axis);
		}
		return axis;
	}
	async joined() {
		const files = [];
		for (const [i, file] of this.files.entries()) files.push({
			...file,
			sha256: await this.digests[i]
		});
		const values = new Float32Array(this.#spectra.reduce((sum, { length }) => sum + length, 0));
		let offset = 0;
		for (const spectrum of this.#spectra) {
			values.set(spectrum, offset);
			offset += spectrum.length;
		}
		return {
			files,
			axes: this.#axes,
			values
		};
	}
};
function sameNumbers(a, b) {
	return a.length === b.length && a.every((value, i) => value === b[i]);
}
// ../../work/wt-reader/src/batch/node-platform.ts
/** Files as a worker thread opens them: in its own time, so that none waits for the main thread. */
/** Files up to this size are read into one stretch of memory, again and again. */
var SHARED_BYTES = 1e6;
/** A file that has grown beyond this since it was found would fill the memory. */
var MOST_BYTES = 5e8;
/** The platform of one thread. */
function nodePlatform() {
	const shared = new Uint8Array(SHARED_BYTES);
	return {
		open: (at, size) => readWhole(at, size, size < SHARED_BYTES ? shared : new Uint8Array(size + 1)),
		digest: (bytes) => hash("sha256", bytes, "hex")
	};
}
/**
* A file's bytes, in `space` where they fit. One that gives as many as it was said to have, and has
* no more at once, is not asked again.
*/
function readWhole(at, size, space) {
	if (typeof at !== "string") throw new Error("a file of a page cannot be opened here");
	const file = openSync(at, "r");
	try {
		let used = 0;
		for (;;) {
			const read = readSync(file, space, used, space.length - used, null);
			used += read;
			const isWhole = used === size && used < space.length;
			if (read === 0 || isWhole) return space.subarray(0, used);
			if (used < space.length) continue;
			if (used > MOST_BYTES) throw new Error("it grows while it is read");
			const more = new Uint8Array(space.length * 2);
			more.set(space);
			space = more;
		}
	} finally {
		closeSync(file);
	}
}
// ../../work/wt-reader/node_modules/.one-25534.ts
var [folder, passes, profiled] = process.argv.slice(2);
var session = new inspector.Session();
session.connect();
var { sources } = findFiles([folder]);
var platform = nodePlatform();
var post = (m, p = {}) => new Promise((res, rej) => session.post(m, p, (e, r) => e ? rej(e) : res(r)));
await post("Profiler.enable");
await post("Profiler.setSamplingInterval", { interval: 200 });
for (let p = 0; p < Number(passes); p++) {
	if (profiled === String(p)) await post("Profiler.start");
	const parts = [];
	for (let i = 0; i < sources.length; i += 32) {
		const b = process.cpuUsage();
		const out = await read({
			files: sources.slice(i, i + 32).map(({ path, size, at }) => ({
				path,
				size,
				at
			})),
			companions: COMPANIONS_UNKNOWN,
			corrections: []
		}, platform);
		const a = process.cpuUsage(b);
		parts.push((a.user + a.system) / 1e3 / 32);
		if (i === 0 && p === 0) console.log(JSON.stringify(out.files[0]).slice(0, 1500));
	}
	const mean = (a, b) => {
		const s = parts.slice(a, b);
		return (s.reduce((x, y) => x + y, 0) / s.length).toFixed(3);
	};
	console.log("ms/file", mean(0, 15), mean(15, 31), mean(31, 62), mean(62, 125), mean(125), "sum s", (parts.reduce((a, b) => a + b, 0) * 32 / 1e3).toFixed(2));
	if (profiled === String(p)) {
		const { profile } = await post("Profiler.stop");
		writeFileSync("/tmp/rd/one.cpuprofile", JSON.stringify(profile));
	}
}
export {};
