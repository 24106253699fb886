/** The script that starts the editor, where it is installed. */
export function editorEntry(): string | undefined;
