/** Version of this engine, as its package says: results of two versions need not agree. */
export const ENGINE_VERSION = '0.1.0'
