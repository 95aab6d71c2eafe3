import fc from 'fast-check';

/** Property tests draw the same cases in every run, so that a red run means a changed program: other seeds by FC_SEED. */
fc.configureGlobal({ seed: Number(process.env.FC_SEED ?? 20261125) });
