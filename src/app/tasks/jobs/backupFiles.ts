/** What a backup is to the system's file dialogs. */
export const BACKUP_FILES = {
  description: "Backup of jobs",
  mimeTypes: ["application/json"],
  extensions: [".json"],
  id: "backups",
};
