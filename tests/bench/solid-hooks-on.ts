/** Switches the loader of `solid-hooks.ts` on: for node --import. */
import { register } from 'node:module';

register('./solid-hooks.js', import.meta.url);
