/** The server has too much of one kind of work just now; whoever asked may come again. */
export class BusyError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BusyError';
  }
}
