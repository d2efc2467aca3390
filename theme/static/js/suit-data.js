// What a worker has to fetch for itself before it can reckon; its addresses are seen from the folder of scripts.
// SPDX-License-Identifier: AGPL-3.0-or-later
importScripts("../../data/engine.js", "../../data/shop.js", "../../data/frames.js");
