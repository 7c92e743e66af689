/** The bundler takes a style sheet that a module imports along with it. */
declare module '*.css';
