/** A small card with one slip, to see a finding and mend it. It needs no other file. */
import * as vscode from 'vscode';

export const example = `// One step of this card comes too early. Rest the pointer on the wavy line, then press Ctrl+. there.
use "std:kinds"

item pump-switch : switch "the pump switch"  at "panel P1"       normally on
item drain-valve : valve  "the drain valve"  at "under the pump" normally closed
item pump-cover  : cover  "the pump cover"  at "under the pump" normally fitted

rule drained-first "The pump is drained before its cover comes off" {
  before pump-cover removed
  require pump-switch off and drain-valve open
  because "Water under pressure can throw the cover off."
}

card clean-strainer "Clean the strainer of the pump" {
  number   "EX-1"
  revision "A" on 2026-01-05
  crew     mechanic "Mechanic"

  stage "Open the pump" {
    step set pump-switch off
    step set pump-cover removed
    step "Clean the strainer."
  }
  stage "Close the pump" {
    step set pump-cover fitted
    step set pump-switch on
  }
}
`;

export async function openExample(): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument({ language: 'cardwright', content: example });
  await vscode.window.showTextDocument(document);
  return document;
}
