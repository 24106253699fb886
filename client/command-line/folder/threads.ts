/** Works tasks out on several threads, each of which runs this program once more. */
import type { MessagePort, Worker } from 'node:worker_threads';
import { diskProvider } from '../files.ts';
import { settingsFrom } from '../settings.ts';
import { CannotRun, type ThreadData } from '../surroundings.ts';
import { type Done, type Task, workOut } from './tasks.ts';

type Reply = Done | { readonly cannotRun: string };

/** The other side: answers each task that it is sent. */
export function serveTasks(port: MessagePort, { folder, files }: ThreadData): void {
  const provider = diskProvider(folder, files);
  const settingsOf = settingsFrom({ folder, complain: () => {} });
  port.on('message', (task: Task) => port.postMessage(replyTo(task)));

  function replyTo(task: Task): Reply {
    try {
      return workOut(task, provider, settingsOf);
    } catch (error) {
      if (error instanceof CannotRun) return { cannotRun: error.message };
      throw error;
    }
  }
}

/** Has each task worked out by the next thread that is free. */
export async function onThreads(
  tasks: readonly Task[],
  threads: readonly Worker[],
  done: (task: Task, done: Done) => void,
): Promise<void> {
  const waiting = [...tasks];
  try {
    await Promise.all(threads.map((thread) => drain(thread)));
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }

  async function drain(thread: Worker): Promise<void> {
    for (let task = waiting.shift(); task; task = waiting.shift()) {
      const reply = await ask(thread, task);
      if ('cannotRun' in reply) throw new CannotRun(reply.cannotRun);
      done(task, reply);
    }
  }
}

function ask(thread: Worker, task: Task): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const ended = () => settle(() => reject(new Error(`The thread that checked "${task.file}" has ended.`)));
    const failed = (fault: unknown) => settle(() => reject(fault));
    const replied = (reply: Reply) => settle(() => resolve(reply));
    const settle = (tell: () => void) => {
      thread.off('message', replied).off('error', failed).off('exit', ended);
      tell();
    };
    thread.on('message', replied).on('error', failed).on('exit', ended);
    thread.postMessage(task);
  });
}
