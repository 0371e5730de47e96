import { createContext, useContext } from 'react';

export interface Demo {
  fileName: string;
  name: string;
  text: string;
}

export const DemosContext = createContext<readonly Demo[]>([]);
export const useDemos = (): readonly Demo[] => useContext(DemosContext);
